"""Addresses of small equipment; the names are among those of the stores."""

from django.urls import path

from kitchen.stores.tools import views
from kitchen.stores.tools.stock import views as stock

urlpatterns = [
    path("lessons/<str:lesson>/equipment/", views.lesson_equipment, name="lesson_equipment"),
    path("lessons/<str:lesson>/equipment/out/", views.count_out, name="count_out"),
    path("lessons/<str:lesson>/equipment/in/", views.count_in, name="count_in"),
    path("lessons/<str:lesson>/equipment/gone/<int:thing>/<int:place>/", views.write_off, name="write_off"),
    path("lessons/<str:lesson>/equipment/sheet.pdf", views.sheet, name="equipment_sheet"),
    path("stores/equipment/", stock.stock, name="equipment"),
    path("stores/equipment/add/", stock.add, name="add_thing"),
    path("stores/equipment/washing/", stock.wash, name="equipment_wash"),
    path("stores/equipment/<slug:item>/", stock.thing, name="thing"),
    path("stores/equipment/<slug:item>/<slug:room>/", stock.correct, name="correct_thing"),
    path("stores/equipment/<slug:item>/<slug:room>/move/", stock.move, name="move_thing"),
]
