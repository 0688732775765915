"""Addresses of the papers of a lesson, and the one that stands on every print."""

from django.urls import path

from kitchen.website.papers import views

app_name = "papers"
urlpatterns = [
    path("lessons/<str:lesson>/papers/", views.papers, name="papers"),
    path("lessons/<str:lesson>/papers/again.pdf", views.again, name="again"),
    path("papers/<str:code>/", views.print_by_code, name="print"),
]
