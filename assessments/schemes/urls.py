"""Addresses of schemes and briefs."""

from django.urls import path

from assessments.schemes import views

app_name = "schemes"

urlpatterns = [
    path("schemes/", views.schemes, name="list"),
    path("schemes/<slug:code>/", views.scheme, name="scheme"),
    path("lessons/<str:lesson>/brief/", views.brief, name="brief"),
    path("lessons/<str:lesson>/brief/check/", views.check, name="check"),
]
