# Made by Django, and kept in its own form.
# fmt: off

from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('office', '0002_weather_and_seen'),
    ]

    operations = [
        migrations.AddField(
            model_name='district',
            name='stopping',
            field=models.CharField(blank=True, default='', max_length=12),
        ),
    ]
