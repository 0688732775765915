"""The Django app of the site itself: commands and pages that show several topics."""

from django.apps import AppConfig


class WebsiteConfig(AppConfig):
    """It owns no models."""

    name = "kitchen.website"
    label = "website"
