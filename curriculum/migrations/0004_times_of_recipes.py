"""Times of the recipes that were approved before the book kept them; a cost without a price loses its day."""

from django.db import migrations

from curriculum.recipes.figures import figures_of
from curriculum.recipes.sheets import read_sheet

TIMES = ["one_cook_minutes", "work_minutes", "oven_minutes"]


def reckon_times(apps, schema_editor):
    """Reckon the times of every frozen sheet that has none. Costs are reckoned by the worker."""
    versions = apps.get_model("curriculum", "Version").objects.using(schema_editor.connection.alias)
    versions.filter(portion_pence=None).exclude(costed_on=None).update(costed_on=None)
    versions.filter(costed_on=None).exclude(portion_pence=None).update(portion_pence=None)
    without = versions.filter(oven_minutes=None, sheet__isnull=False).only("pk", "sheet")
    for version in without.iterator(chunk_size=200):
        figures = figures_of(read_sheet(version.sheet), {})
        versions.filter(pk=version.pk).update(**{name: getattr(figures, name) for name in TIMES})


class Migration(migrations.Migration):
    dependencies = [
        ("curriculum", "0003_recipe_history"),
    ]

    operations = [
        migrations.RunPython(reckon_times, migrations.RunPython.noop),
    ]
