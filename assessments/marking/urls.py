"""Addresses of marking. A learner is named by the college number."""

from django.urls import path

from assessments.marking import views

app_name = "marking"

urlpatterns = [
    path("lessons/<str:lesson>/marks/", views.overview, name="lesson"),
    path("lessons/<str:lesson>/marks/open/", views.open_sheets, name="open"),
    path("lessons/<str:lesson>/marks/marker/", views.name_marker, name="name_marker"),
    path("lessons/<str:lesson>/marks/<str:learner>/", views.sheet, name="sheet"),
    path("lessons/<str:lesson>/marks/<str:learner>/give/", views.give, name="give"),
    path("lessons/<str:lesson>/marks/<str:learner>/undo/", views.undo, name="undo"),
    path("lessons/<str:lesson>/marks/<str:learner>/submit/", views.submit, name="submit"),
    path("lessons/<str:lesson>/marks/<str:learner>/take-back/", views.take_back, name="take_back"),
    path("lessons/<str:lesson>/marks/<str:learner>/card/", views.card, name="card"),
    path("lessons/<str:lesson>/marks/<str:learner>/agree/", views.agree, name="agree"),
]
