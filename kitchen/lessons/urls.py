"""Addresses of lessons."""

from django.urls import path

from kitchen.lessons import views
from kitchen.lessons.plates import views as plates

app_name = "lessons"
urlpatterns = [
    path("lessons/", views.lessons_by_week, name="list"),
    path("lessons/book/", views.book, name="book"),
    path("lessons/<str:lesson>/change/", views.change, name="change"),
    path("lessons/<str:lesson>/cancel/", views.cancel, name="cancel"),
    path("lessons/<str:lesson>/places/", views.places, name="places"),
    path("lessons/<str:lesson>/plates/", plates.plates, name="plates"),
    path("lessons/<str:lesson>/diets/", views.diets, name="diets"),
    path("lessons/<str:lesson>/dishes/", views.another_dish, name="another_dish"),
    path("lessons/<str:lesson>/attendance/", views.attendance, name="attendance"),
]
