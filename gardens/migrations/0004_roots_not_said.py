from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [
        ("gardens", "0003_account_names"),
    ]

    operations = [
        migrations.AlterField(
            model_name="soilsample",
            name="has_roots",
            field=models.BooleanField(null=True),
        ),
    ]
