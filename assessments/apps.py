"""The Django app of everything under assessments/."""

from django.apps import AppConfig


class AssessmentsConfig(AppConfig):
    """Its models lie in the topic folders and are listed in assessments/models.py."""

    name = "assessments"
    default_auto_field = "django.db.models.BigAutoField"
