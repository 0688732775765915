"""Addresses of what lessons teach the stores."""

from django.urls import path

from kitchen.stores.learning import views

urlpatterns = [
    path("stores/learning/", views.learning, name="learning"),
    path("stores/learning/allowance/", views.allowance, name="allowance"),
    path("stores/learning/<int:number>/take-back/", views.take_back, name="take_back_figure"),
    path("stores/learning/<str:kind>/<str:of>/<slug:food>/", views.learned, name="learned"),
]
