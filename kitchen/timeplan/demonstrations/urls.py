"""Addresses of a lesson's demonstration; they stand in the namespace of the time plan."""

from django.urls import path

from kitchen.timeplan.demonstrations import views

demonstration_patterns = [
    path("lessons/<str:lesson>/demonstration/", views.demonstration, name="demonstration"),
    path("lessons/<str:lesson>/demonstration/take/", views.take, name="demonstration_take"),
    path("lessons/<str:lesson>/demonstration/stages/", views.stages, name="demonstration_stages"),
    path("lessons/<str:lesson>/demonstration/sheet.pdf", views.sheet, name="demonstration_sheet"),
    path("lessons/<str:lesson>/demonstration/trays.pdf", views.labels, name="demonstration_trays"),
]
