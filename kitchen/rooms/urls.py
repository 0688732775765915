"""Addresses of rooms."""

from django.urls import path

from kitchen.rooms import views

app_name = "rooms"
urlpatterns = [
    path("rooms/", views.rooms, name="list"),
    path("rooms/<slug:room>/", views.room, name="room"),
]
