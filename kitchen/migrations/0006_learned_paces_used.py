"""Every timing behind a learned pace is kept, and a lesson says whether it is planned by learned paces."""

from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [("kitchen", "0005_orders_of_a_week")]

    operations = [
        migrations.AddField(
            model_name="learnedminutes",
            name="timings",
            field=models.JSONField(default=dict),
        ),
        migrations.AddField(
            model_name="lesson",
            name="by_recipe_minutes",
            field=models.BooleanField(default=False),
        ),
    ]
