# Made by Django, and kept in its own form.
# fmt: off

from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('office', '0003_ending_early'),
    ]

    operations = [
        migrations.AddField(
            model_name='seenrow',
            name='note',
            field=models.TextField(blank=True, default=''),
        ),
    ]
