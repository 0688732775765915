"""Addresses of the plan's picture for the wall."""

from django.urls import path

from kitchen.timeplan.wall import views

wall_patterns = [
    path("lessons/<str:lesson>/time-plan/wall/", views.wall, name="wall"),
    path("lessons/<str:lesson>/time-plan/wall.pdf", views.wall_sheet, name="wall_paper"),
]
