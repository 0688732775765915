"""Addresses of the foods of the book."""

from django.urls import path

from curriculum.foods import views
from curriculum.foods.one import views as one

app_name = "foods"
urlpatterns = [
    path("foods/", views.foods, name="list"),
    path("foods/new/", views.new, name="new"),
    path("foods/<slug:food>/", one.food, name="food"),
    path("foods/<slug:food>/edit/", one.edit, name="edit"),
    path("foods/<slug:food>/label/", one.label, name="label"),
    path("foods/<slug:food>/test/", one.new_test, name="new_test"),
    path("foods/<slug:food>/price/", one.new_price, name="new_price"),
    path("foods/<slug:food>/use/own/", one.use_own, name="use_own"),
    path("foods/<slug:food>/use/<int:figure>/", one.use_table, name="use_table"),
    path("foods/<slug:food>/retire/", one.retire, name="retire"),
    path("foods/<slug:food>/back/", one.bring_back, name="bring_back"),
]
