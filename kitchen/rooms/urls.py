"""Addresses of rooms."""

from django.urls import path

from kitchen.rooms import views

app_name = "rooms"
urlpatterns = [
    path("rooms/", views.rooms, name="list"),
    path("rooms/under-18/", views.listed, name="listed"),
    path("rooms/<slug:room>/", views.room, name="room"),
]
