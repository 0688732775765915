"""Addresses of signing in and out."""

from django.urls import path

from curriculum.people import views

app_name = "people"
urlpatterns = [
    path("sign-in/", views.sign_in, name="sign_in"),
    path("sign-out/", views.sign_out, name="sign_out"),
    path("cannot-sign-in/", views.cannot_sign_in, name="cannot_sign_in"),
    path("how-it-looks/", views.look_for_me, name="look_for_me"),
]
