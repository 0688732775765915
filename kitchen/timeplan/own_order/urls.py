"""Addresses of own orders of work."""

from django.urls import path

from kitchen.timeplan.own_order import views

own_order_patterns = [
    path("lessons/<str:lesson>/my-order/", views.own, name="own_order"),
    path("lessons/<str:lesson>/my-order/hand-in/", views.hand_in, name="own_order_hand_in"),
    path("lessons/<str:lesson>/my-order.pdf", views.own_paper, name="own_order_paper"),
    path("lessons/<str:lesson>/orders-of-work/", views.orders, name="own_orders"),
    path("lessons/<str:lesson>/orders-of-work/assessed/", views.assessed, name="own_orders_assessed"),
    path("lessons/<str:lesson>/orders-of-work/<str:learner>/", views.order_of, name="own_order_of"),
    path("lessons/<str:lesson>/orders-of-work/<str:learner>/open/", views.open_again, name="own_order_open"),
    path(
        "lessons/<str:lesson>/orders-of-work/<str:learner>/order.pdf",
        views.order_of_paper,
        name="own_order_of_paper",
    ),
]
