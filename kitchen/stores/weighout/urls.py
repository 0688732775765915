"""Addresses of the weigh-out, within the stores."""

from django.urls import path

from kitchen.stores.weighout import views
from kitchen.stores.weighout.old_trays import views as old_trays

urlpatterns = [
    path("lessons/<str:lesson>/weigh/", views.weigh, name="weigh"),
    path("lessons/<str:lesson>/weigh/clean-start/", views.clean, name="weigh_clean"),
    path("lessons/<str:lesson>/weigh/old-trays/", old_trays.old_trays, name="old_trays"),
    path("lessons/<str:lesson>/weigh/<str:stop>/", views.stop, name="weigh_station"),
    path("lessons/<str:lesson>/weigh/<str:stop>/back/", views.take_back, name="take_back"),
    path("lessons/<str:lesson>/weigh/<str:stop>/lid/", views.lid, name="weigh_lid"),
    path("lessons/<str:lesson>/weigh/<str:stop>/go-on/", views.go_on, name="weigh_go_on"),
    path("lessons/<str:lesson>/weigh/<str:stop>/initials/", views.initial, name="weigh_initial"),
    path("lessons/<str:lesson>/weigh/<str:stop>/check/", views.check, name="weigh_check"),
    path("lessons/<str:lesson>/weigh/<str:stop>/pack/", views.bulk, name="weigh_bulk"),
    path("stores/weigh-out/", views.rule, name="weigh_rule"),
]
