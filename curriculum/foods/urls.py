"""Addresses of the foods of the book."""

from django.urls import path

from curriculum.foods import views

app_name = "foods"
urlpatterns = [
    path("foods/", views.foods, name="list"),
    path("foods/new/", views.new, name="new"),
]
