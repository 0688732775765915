"""Addresses of a lesson's time plan, of its demonstration and of its day."""

from django.urls import path

from kitchen.timeplan import views
from kitchen.timeplan.day.urls import day_patterns
from kitchen.timeplan.demonstrations.urls import demonstration_patterns
from kitchen.timeplan.learned.urls import learned_patterns
from kitchen.timeplan.own_order.urls import own_order_patterns
from kitchen.timeplan.pins.urls import pin_patterns
from kitchen.timeplan.slips.urls import slip_patterns
from kitchen.timeplan.wall.urls import wall_patterns

app_name = "timeplan"
urlpatterns = [
    path("lessons/<str:lesson>/time-plan/", views.plan, name="plan"),
    path("lessons/<str:lesson>/time-plan/longer/", views.plan_longer, name="longer"),
    path("lessons/<str:lesson>/time-plan/progress/", views.progress, name="progress"),
    path("lessons/<str:lesson>/time-plan/stop/", views.stop, name="stop"),
    path("lessons/<str:lesson>/time-plan/accept/", views.accept, name="accept"),
    path("lessons/<str:lesson>/time-plan/way-out/", views.way_out, name="way_out"),
    path("lessons/<str:lesson>/time-plan/lecturer.pdf", views.lecturer_paper, name="lecturer_paper"),
    path("lessons/<str:lesson>/time-plan/strips.pdf", views.strips_paper, name="strips_paper"),
    path("lessons/<str:lesson>/time-plan/my-bench/", views.own_strip, name="own_strip"),
    path("lessons/<str:lesson>/time-plan/my-bench.pdf", views.own_strip_paper, name="own_strip_paper"),
    *demonstration_patterns,
    *day_patterns,
    *pin_patterns,
    *slip_patterns,
    *wall_patterns,
    *own_order_patterns,
    *learned_patterns,
]
