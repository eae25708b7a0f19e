# Made by Django, and kept in its own form.
# fmt: off

import django.db.models.deletion
from django.conf import settings
from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('office', '0001_initial'),
    ]

    operations = [
        migrations.CreateModel(
            name='SeenRow',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('on', models.DateField()),
                ('true_leaves', models.FloatField(null=True)),
                ('nodes', models.FloatField(null=True)),
                ('plants', models.PositiveIntegerField(null=True)),
                ('pinhead', models.PositiveIntegerField(null=True)),
                ('squaring_branches', models.FloatField(null=True)),
                ('bloom', models.BooleanField(null=True)),
                ('nawf', models.FloatField(null=True)),
                ('at', models.DateTimeField()),
                ('struck_at', models.DateTimeField(null=True)),
                ('by', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
                ('field', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='seen', to='office.fieldrow')),
                ('struck_by', models.ForeignKey(null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
            ],
            options={
                'ordering': ['on', 'pk'],
            },
        ),
        migrations.CreateModel(
            name='StationRow',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('station', models.CharField(max_length=200)),
                ('name', models.CharField(blank=True, max_length=200)),
                ('longitude', models.FloatField(null=True)),
                ('latitude', models.FloatField(null=True)),
                ('elevation_m', models.FloatField(null=True)),
                ('first', models.DateField()),
                ('last', models.DateField()),
                ('days', models.TextField()),
                ('sha256', models.CharField(max_length=64)),
                ('taken_at', models.DateTimeField()),
                ('district', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='stations', to='office.district')),
            ],
            options={
                'ordering': ['station'],
                'constraints': [models.UniqueConstraint(fields=('district', 'station'), name='one_station_a_district_and_id')],
            },
        ),
    ]
