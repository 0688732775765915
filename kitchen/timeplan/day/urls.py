"""Addresses of the day of a lesson."""

from django.urls import path

from kitchen.timeplan.day import views

day_patterns = [
    path("lessons/<str:lesson>/day/", views.day, name="day"),
    path("lessons/<str:lesson>/day/tap/", views.tap, name="day_tap"),
    path("lessons/<str:lesson>/day/re-plan/", views.replan, name="day_replan"),
    path("lessons/<str:lesson>/day/re-plan/accept/", views.accept, name="day_accept"),
    path("lessons/<str:lesson>/day/board/", views.board, name="day_board"),
    path("lessons/<str:lesson>/day/after/", views.after, name="day_after"),
    path("lessons/<str:lesson>/day/after/learn/", views.learn, name="day_learn"),
    path("lessons/<str:lesson>/day/bench/<str:bench>/", views.bench, name="day_bench"),
]
