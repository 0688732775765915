"""Address of a plan's chances."""

from django.urls import path

from kitchen.timeplan.slips import views

slip_patterns = [path("lessons/<str:lesson>/time-plan/chances/", views.chances, name="chances")]
