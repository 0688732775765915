"""Addresses of the recipe sheets: a learner's own, that of a bench, all of a lesson."""

from django.urls import path

from kitchen.website.sheets import views

app_name = "sheets"
urlpatterns = [
    path("lessons/<str:lesson>/sheet/", views.own, name="own"),
    path("lessons/<str:lesson>/sheet.pdf", views.own_paper, name="own_paper"),
    path("lessons/<str:lesson>/sheets.pdf", views.lesson_paper, name="lesson_paper"),
    path("lessons/<str:lesson>/benches/<str:place>/sheet/", views.place, name="place"),
    path("lessons/<str:lesson>/benches/<str:place>/sheet.pdf", views.place_paper, name="place_paper"),
]
