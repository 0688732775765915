"""Addresses of verification."""

from django.urls import path

from assessments.verification import views
from assessments.verification.agreement import views as agreement

app_name = "verification"

urlpatterns = [
    path("agreement/", agreement.schemes, name="agreements"),
    path("agreement/<slug:code>/", agreement.scheme, name="agreement"),
    path("samples/", views.samples, name="samples"),
    path("samples/<str:code>/", views.sample, name="sample"),
    path("samples/<str:code>/<str:sitting>/", views.sitting, name="sitting"),
]
