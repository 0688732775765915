"""The Django app of everything under kitchen/."""

from django.apps import AppConfig


class KitchenConfig(AppConfig):
    """Its models lie in the topic folders and are listed in kitchen/models.py."""

    name = "kitchen"
    default_auto_field = "django.db.models.BigAutoField"
