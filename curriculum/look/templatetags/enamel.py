"""Template tags of the look."""

from django import template

register = template.Library()
