# Made by Django, and kept in its own form.
# fmt: off

import django.db.models.deletion
import django.db.models.functions.text
from django.conf import settings
from django.db import migrations, models

import quarterwalk.office.models.ids


class Migration(migrations.Migration):

    initial = True

    dependencies = [
    ]

    operations = [
        migrations.CreateModel(
            name='CallRow',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('walk_id', models.CharField(db_index=True, max_length=32)),
                ('made_at', models.DateTimeField()),
                ('content', models.TextField()),
                ('sha256', models.CharField(max_length=64)),
            ],
            options={
                'ordering': ['pk'],
            },
        ),
        migrations.CreateModel(
            name='District',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('public_id', models.CharField(default=quarterwalk.office.models.ids.new_id, editable=False, max_length=8, unique=True)),
                ('name', models.CharField(max_length=80)),
                ('time_zone', models.CharField(default='UTC', max_length=60)),
                ('contact', models.CharField(blank=True, max_length=120)),
                ('is_demo', models.BooleanField(default=False)),
            ],
        ),
        migrations.CreateModel(
            name='Person',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('password', models.CharField(max_length=128, verbose_name='password')),
                ('last_login', models.DateTimeField(blank=True, null=True, verbose_name='last login')),
                ('public_id', models.CharField(default=quarterwalk.office.models.ids.new_id, editable=False, max_length=8, unique=True)),
                ('sign_in_name', models.CharField(max_length=60, unique=True)),
                ('name', models.CharField(max_length=80)),
                ('is_active', models.BooleanField(default=True)),
            ],
            options={
                'constraints': [models.UniqueConstraint(django.db.models.functions.text.Lower('sign_in_name'), name='one_sign_in_name_in_any_case')],
            },
        ),
        migrations.CreateModel(
            name='Device',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('device_id', models.CharField(default=quarterwalk.office.models.ids.new_device_id, editable=False, max_length=12, unique=True)),
                ('kind', models.CharField(choices=[('phone', 'phone'), ('office', 'office')], max_length=6)),
                ('label', models.CharField(blank=True, max_length=60)),
                ('token_hash', models.CharField(max_length=64, null=True, unique=True)),
                ('paired_at', models.DateTimeField()),
                ('seen_at', models.DateTimeField(null=True)),
                ('skew_ms', models.BigIntegerField(null=True)),
                ('revoked_at', models.DateTimeField(null=True)),
                ('person', models.ForeignKey(null=True, on_delete=django.db.models.deletion.CASCADE, related_name='devices', to=settings.AUTH_USER_MODEL)),
                ('district', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='devices', to='office.district')),
            ],
        ),
        migrations.CreateModel(
            name='FieldRow',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('public_id', models.CharField(default=quarterwalk.office.models.ids.new_id, editable=False, max_length=8, unique=True)),
                ('name', models.CharField(max_length=200)),
                ('farm', models.CharField(blank=True, max_length=200)),
                ('boundary', models.TextField()),
                ('acres', models.FloatField()),
                ('gate_longitude', models.FloatField(null=True)),
                ('gate_latitude', models.FloatField(null=True)),
                ('rows', models.FloatField(null=True)),
                ('guideline', models.CharField(blank=True, max_length=60)),
                ('line', models.CharField(blank=True, max_length=20)),
                ('closed_until', models.DateTimeField(blank=True, null=True)),
                ('closed_why', models.CharField(blank=True, max_length=120)),
                ('district', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='fields', to='office.district')),
            ],
            options={
                'ordering': ['name'],
            },
        ),
        migrations.CreateModel(
            name='CardRow',
            fields=[
                ('sha256', models.CharField(max_length=64, primary_key=True, serialize=False)),
                ('on', models.DateField()),
                ('inputs', models.CharField(db_index=True, max_length=64)),
                ('raw', models.BinaryField()),
                ('made_at', models.DateTimeField()),
                ('field', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='cards', to='office.fieldrow')),
            ],
        ),
        migrations.CreateModel(
            name='Grower',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('name', models.CharField(max_length=200)),
                ('district', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='growers', to='office.district')),
            ],
        ),
        migrations.AddField(
            model_name='fieldrow',
            name='grower',
            field=models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='fields', to='office.grower'),
        ),
        migrations.CreateModel(
            name='JournalEntry',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('key_device', models.CharField(blank=True, max_length=12)),
                ('key_seq', models.BigIntegerField(null=True)),
                ('walk_id', models.CharField(blank=True, db_index=True, max_length=32)),
                ('raw', models.BinaryField()),
                ('sha256', models.CharField(max_length=64)),
                ('received_at', models.DateTimeField()),
                ('state', models.CharField(choices=[('held', 'held'), ('quarantined', 'waiting for a decision'), ('left-out', 'left out')], max_length=11)),
                ('why', models.CharField(blank=True, max_length=20)),
                ('said', models.CharField(blank=True, max_length=300)),
                ('decided_at', models.DateTimeField(null=True)),
                ('decided_why', models.CharField(blank=True, max_length=300)),
                ('decided_by', models.ForeignKey(null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
                ('device', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='entries', to='office.device')),
            ],
        ),
        migrations.CreateModel(
            name='Membership',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('role', models.CharField(choices=[('lead', 'lead'), ('scout', 'scout'), ('grower', 'grower')], max_length=6)),
                ('district', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='memberships', to='office.district')),
                ('grower', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='memberships', to='office.grower')),
                ('person', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='memberships', to=settings.AUTH_USER_MODEL)),
            ],
        ),
        migrations.CreateModel(
            name='PairingCode',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('code_hash', models.CharField(max_length=64, unique=True)),
                ('made_at', models.DateTimeField()),
                ('ends_at', models.DateTimeField()),
                ('used_at', models.DateTimeField(null=True)),
                ('district', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='pairing_codes', to='office.district')),
                ('person', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='pairing_codes', to=settings.AUTH_USER_MODEL)),
            ],
        ),
        migrations.CreateModel(
            name='SeasonRow',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('year', models.PositiveSmallIntegerField()),
                ('planted', models.DateField(blank=True, null=True)),
                ('first_square', models.DateField(blank=True, null=True)),
                ('first_square_latest', models.DateField(blank=True, null=True)),
                ('bloom', models.DateField(blank=True, null=True)),
                ('variety', models.CharField(blank=True, max_length=80)),
                ('water', models.CharField(blank=True, max_length=40)),
                ('seed_treatment', models.CharField(blank=True, max_length=80)),
                ('replanted', models.DateField(blank=True, null=True)),
                ('hail', models.CharField(blank=True, max_length=120)),
                ('field', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='seasons', to='office.fieldrow')),
            ],
        ),
        migrations.CreateModel(
            name='SignInLink',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('token_hash', models.CharField(max_length=64, unique=True)),
                ('made_at', models.DateTimeField()),
                ('ends_at', models.DateTimeField()),
                ('used_at', models.DateTimeField(null=True)),
                ('lasting', models.BooleanField(default=False)),
                ('person', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='links', to=settings.AUTH_USER_MODEL)),
            ],
        ),
        migrations.CreateModel(
            name='Treatment',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('on', models.DateField()),
                ('field', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='treatments', to='office.fieldrow')),
            ],
            options={
                'ordering': ['on'],
            },
        ),
        migrations.CreateModel(
            name='WalkRow',
            fields=[
                ('walk_id', models.CharField(max_length=32, primary_key=True, serialize=False)),
                ('state', models.CharField(max_length=11)),
                ('on', models.DateField(null=True)),
                ('opened_at', models.DateTimeField(null=True)),
                ('closed_at', models.DateTimeField(null=True)),
                ('source', models.CharField(blank=True, max_length=5)),
                ('method', models.CharField(blank=True, max_length=11)),
                ('sites', models.CharField(blank=True, max_length=4)),
                ('label', models.CharField(blank=True, max_length=80)),
                ('plan', models.CharField(blank=True, max_length=128)),
                ('card', models.CharField(blank=True, max_length=64)),
                ('scouts', models.TextField(blank=True)),
                ('plants', models.PositiveIntegerField(default=0)),
                ('waiting', models.PositiveIntegerField(default=0)),
                ('doubled', models.PositiveIntegerField(default=0)),
                ('unusable', models.PositiveIntegerField(default=0)),
                ('standing', models.TextField(blank=True)),
                ('district', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='walks', to='office.district')),
                ('field', models.ForeignKey(null=True, on_delete=django.db.models.deletion.CASCADE, related_name='walks', to='office.fieldrow')),
            ],
        ),
        migrations.CreateModel(
            name='RemarkRow',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('device_id', models.CharField(max_length=12)),
                ('seq', models.BigIntegerField()),
                ('at', models.DateTimeField()),
                ('by', models.CharField(blank=True, max_length=80)),
                ('what', models.CharField(max_length=20)),
                ('quadrant', models.CharField(blank=True, max_length=2)),
                ('stop', models.PositiveIntegerField(null=True)),
                ('text', models.CharField(blank=True, max_length=2000)),
                ('district', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='remarks', to='office.district')),
                ('field', models.ForeignKey(null=True, on_delete=django.db.models.deletion.CASCADE, related_name='remarks', to='office.fieldrow')),
                ('walk', models.ForeignKey(null=True, on_delete=django.db.models.deletion.CASCADE, related_name='remarks', to='office.walkrow')),
            ],
            options={
                'ordering': ['at', 'device_id', 'seq'],
            },
        ),
        migrations.CreateModel(
            name='QuadrantNoteRow',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('position', models.PositiveIntegerField()),
                ('quadrant', models.CharField(max_length=2)),
                ('lost', models.CharField(blank=True, max_length=5)),
                ('water', models.BooleanField(null=True)),
                ('other_pests', models.CharField(blank=True, max_length=4)),
                ('branches', models.CharField(blank=True, max_length=20)),
                ('note', models.CharField(blank=True, max_length=500)),
                ('walk', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='quadrant_notes', to='office.walkrow')),
            ],
            options={
                'ordering': ['walk_id', 'position'],
            },
        ),
        migrations.CreateModel(
            name='CheckRow',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('position', models.PositiveIntegerField()),
                ('device_id', models.CharField(max_length=12)),
                ('seq', models.BigIntegerField()),
                ('on', models.DateField()),
                ('scout', models.CharField(blank=True, max_length=90)),
                ('quadrant', models.CharField(max_length=2)),
                ('stop', models.PositiveIntegerField(null=True)),
                ('plant', models.PositiveIntegerField()),
                ('adults', models.PositiveSmallIntegerField(null=True)),
                ('nymphs', models.PositiveSmallIntegerField(null=True)),
                ('healthy', models.PositiveSmallIntegerField(null=True)),
                ('missing', models.PositiveSmallIntegerField(null=True)),
                ('blasted', models.PositiveSmallIntegerField(null=True)),
                ('flared', models.PositiveSmallIntegerField(null=True)),
                ('sweeps', models.PositiveIntegerField(null=True)),
                ('skipped', models.BooleanField(default=False)),
                ('why', models.CharField(blank=True, max_length=8)),
                ('note', models.CharField(blank=True, max_length=500)),
                ('walk', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='checks', to='office.walkrow')),
            ],
            options={
                'ordering': ['walk_id', 'position'],
            },
        ),
        migrations.AddConstraint(
            model_name='device',
            constraint=models.CheckConstraint(condition=models.Q(models.Q(('kind', 'office'), ('token_hash__isnull', True)), models.Q(('kind', 'phone'), ('person__isnull', False), ('token_hash__isnull', False)), _connector='OR'), name='a_phone_has_a_token_and_a_person'),
        ),
        migrations.AddConstraint(
            model_name='device',
            constraint=models.UniqueConstraint(condition=models.Q(('kind', 'office')), fields=('district',), name='one_office_device_a_district'),
        ),
        migrations.AddConstraint(
            model_name='grower',
            constraint=models.UniqueConstraint(fields=('district', 'name'), name='one_grower_a_name'),
        ),
        migrations.AddConstraint(
            model_name='fieldrow',
            constraint=models.UniqueConstraint(fields=('district', 'name'), name='one_field_a_name'),
        ),
        migrations.AddConstraint(
            model_name='journalentry',
            constraint=models.UniqueConstraint(condition=models.Q(('state', 'held')), fields=('key_device', 'key_seq'), name='one_held_entry_a_key'),
        ),
        migrations.AddConstraint(
            model_name='journalentry',
            constraint=models.UniqueConstraint(condition=models.Q(('state', 'held'), _negated=True), fields=('device', 'sha256'), name='the_same_bytes_wait_once'),
        ),
        migrations.AddConstraint(
            model_name='membership',
            constraint=models.UniqueConstraint(fields=('person', 'district'), name='one_part_a_person'),
        ),
        migrations.AddConstraint(
            model_name='membership',
            constraint=models.CheckConstraint(condition=models.Q(models.Q(('grower__isnull', False), ('role', 'grower')), models.Q(models.Q(('role', 'grower'), _negated=True), ('grower__isnull', True)), _connector='OR'), name='a_grower_role_names_its_grower'),
        ),
        migrations.AddConstraint(
            model_name='seasonrow',
            constraint=models.UniqueConstraint(fields=('field', 'year'), name='one_season_a_year'),
        ),
        migrations.AddConstraint(
            model_name='treatment',
            constraint=models.UniqueConstraint(fields=('field', 'on'), name='one_treatment_a_day'),
        ),
        migrations.AddConstraint(
            model_name='remarkrow',
            constraint=models.UniqueConstraint(fields=('device_id', 'seq'), name='one_remark_a_key'),
        ),
        migrations.AddConstraint(
            model_name='checkrow',
            constraint=models.UniqueConstraint(fields=('walk', 'position'), name='one_plant_a_position'),
        ),
    ]
