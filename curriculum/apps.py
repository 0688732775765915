"""The Django app of everything under curriculum/."""

from django.apps import AppConfig


class CurriculumConfig(AppConfig):
    """Its models lie in the topic folders and are listed in curriculum/models.py."""

    name = "curriculum"
    default_auto_field = "django.db.models.BigAutoField"
