"""Addresses of groups and learners."""

from django.urls import path

from kitchen.website.learners import views

app_name = "learners"
urlpatterns = [
    path("groups/", views.groups, name="groups"),
    path("groups/<str:group>/", views.group, name="group"),
    path("learners/<str:learner>/", views.learner, name="learner"),
    path("learners/<str:learner>/avoids/", views.avoids, name="avoids"),
    path("learners/<str:learner>/avoids/<int:row>/end/", views.end_avoids, name="end_avoids"),
    path("learners/<str:learner>/agreed/", views.agreed, name="agreed"),
    path("learners/<str:learner>/agreed/<int:row>/end/", views.end_agreed, name="end_agreed"),
]
