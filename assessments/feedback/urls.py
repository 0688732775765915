"""Addresses of feedback."""

from django.urls import path

from assessments.feedback import views

app_name = "feedback"

urlpatterns = [
    path("feedback/", views.own_list, name="list"),
    path("feedback/<str:code>/", views.own, name="own"),
    path("feedback/<str:code>/paper/", views.paper, name="paper"),
    path("lessons/<str:lesson>/feedback/", views.lesson_feedback, name="lesson"),
    path("lessons/<str:lesson>/feedback/all/", views.hand_back_all, name="hand_back_all"),
    path("lessons/<str:lesson>/feedback/<str:learner>/", views.write, name="write"),
    path("lessons/<str:lesson>/feedback/<str:learner>/hand-back/", views.hand_back, name="hand_back"),
]
