"""Addresses of verification."""

from django.urls import path

from assessments.verification import views

app_name = "verification"

urlpatterns = [
    path("samples/", views.samples, name="samples"),
    path("samples/<str:code>/", views.sample, name="sample"),
    path("samples/<str:code>/<str:sitting>/", views.sitting, name="sitting"),
]
