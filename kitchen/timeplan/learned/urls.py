"""Address of the choice of minutes."""

from django.urls import path

from kitchen.timeplan.learned import views

learned_patterns = [path("lessons/<str:lesson>/time-plan/minutes/", views.minutes, name="minutes")]
