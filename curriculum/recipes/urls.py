"""Addresses of the recipe book and of the techniques."""

from django.urls import path

from curriculum.recipes import views
from curriculum.recipes.approval import views as approval
from curriculum.recipes.comparing import views as comparing
from curriculum.recipes.copying import views as copying
from curriculum.recipes.finished import views as finished
from curriculum.recipes.interchange import views as interchange
from curriculum.recipes.moving import views as moving
from curriculum.recipes.pasting import views as pasting
from curriculum.recipes.scaled import views as scaled
from curriculum.recipes.steps import views as steps
from curriculum.recipes.uses import views as uses
from curriculum.recipes.variants import views as variants
from curriculum.recipes.vessels import views as vessels
from curriculum.recipes.writing import views as writing

app_name = "recipes"

_VERSION = "recipes/<slug:code>/<int:number>/"
_COMPONENT = f"{_VERSION}write/components/<str:component>/"

urlpatterns = [
    path("recipes/", views.book, name="book"),
    path("recipes/write/", writing.new, name="new"),
    path("recipes/write/bring-in/", interchange.bring_in, name="bring_in"),
    path("recipes/<slug:code>/", views.recipe, name="recipe"),
    path(_VERSION, views.version, name="version"),
    path(f"{_VERSION}scale/", scaled.scale, name="scale"),
    path(f"{_VERSION}out/json-ld/", interchange.take_out_json, name="take_out_json"),
    path(f"{_VERSION}out/text/", interchange.take_out_text, name="take_out_text"),
    path(f"{_VERSION}out/table/", interchange.take_out_table, name="take_out_table"),
    path("recipes/<slug:code>/compare/", comparing.compare, name="compare"),
    path(f"{_VERSION}variant/", variants.variant, name="variant"),
    path(f"{_VERSION}against/", variants.against, name="against"),
    path(f"{_VERSION}copy/", copying.copy, name="copy"),
    path(f"{_VERSION}revise/", writing.revise, name="revise"),
    path(f"{_VERSION}send/", approval.send, name="send"),
    path(f"{_VERSION}send-back/", approval.send_back, name="send_back"),
    path(f"{_VERSION}check/", approval.check, name="check"),
    path(f"{_VERSION}approve/", approval.approve, name="approve"),
    path(f"{_VERSION}back/", approval.back, name="back"),
    path(f"{_VERSION}withdraw/", approval.withdraw, name="withdraw"),
    path(f"{_VERSION}write/", writing.write, name="write"),
    path(f"{_VERSION}write/title/", writing.title, name="title"),
    path(f"{_VERSION}write/components/", writing.new_component, name="new_component"),
    path(_COMPONENT, writing.component, name="component"),
    path(f"{_COMPONENT}remove/", writing.remove_component, name="remove_component"),
    path(f"{_COMPONENT}earlier/", moving.component, {"places": -1}, name="component_earlier"),
    path(f"{_COMPONENT}later/", moving.component, {"places": 1}, name="component_later"),
    path(f"{_COMPONENT}paste/", pasting.paste, name="paste"),
    path(f"{_COMPONENT}lines/", writing.new_line, name="new_line"),
    path(f"{_COMPONENT}lines/<int:position>/", writing.line, name="line"),
    path(f"{_COMPONENT}lines/<int:position>/remove/", writing.remove_line, name="remove_line"),
    path(f"{_COMPONENT}lines/<int:position>/earlier/", moving.line, {"places": -1}, name="line_earlier"),
    path(f"{_COMPONENT}lines/<int:position>/later/", moving.line, {"places": 1}, name="line_later"),
    path(f"{_VERSION}write/steps/", steps.new_step, name="new_step"),
    path(f"{_VERSION}write/steps/<int:position>/", steps.step, name="step"),
    path(f"{_VERSION}write/steps/<int:position>/remove/", steps.remove_step, name="remove_step"),
    path(f"{_VERSION}write/steps/<int:position>/earlier/", moving.step, {"places": -1}, name="earlier"),
    path(f"{_VERSION}write/steps/<int:position>/later/", moving.step, {"places": 1}, name="later"),
    path(f"{_VERSION}write/finished/", finished.finished, name="finished"),
    path(f"{_VERSION}write/tins/", vessels.new_tin, name="new_tin"),
    path(f"{_VERSION}write/tins/<int:place>/", vessels.tin, name="tin"),
    path(f"{_VERSION}write/tins/<int:place>/remove/", vessels.remove_tin, name="remove_tin"),
    path("foods/<slug:food>/recipes/", uses.recipes_with, name="with_food"),
    path("techniques/", views.techniques, name="techniques"),
    path("techniques/<slug:code>/", views.technique, name="technique"),
]
