"""Addresses of what is fixed by hand in a lesson's time plan."""

from django.urls import path

from kitchen.timeplan.pins import views

pin_patterns = [
    path("lessons/<str:lesson>/time-plan/fix/", views.fix, name="fix"),
    path("lessons/<str:lesson>/time-plan/fix/start/", views.fix_start, name="fix_start"),
    path("lessons/<str:lesson>/time-plan/fix/oven/", views.fix_oven, name="fix_oven"),
    path("lessons/<str:lesson>/time-plan/fix/order/", views.fix_order, name="fix_order"),
    path("lessons/<str:lesson>/time-plan/fix/let-go/", views.let_go, name="let_go"),
]
