"""People of a district, and what part they have in it."""

from __future__ import annotations

from typing import Any

from django import forms

from quarterwalk.office.models import District, Grower, Person, Role

_PARTS = [
    (Role.LEAD, "Lead: everything in the district"),
    (Role.SCOUT, "Scout: walks fields and reads calls"),
    (Role.GROWER, "Grower: sees their own fields"),
]


class PartForm(forms.Form):
    """The part of one person.

    Parameters
    ----------
    district : District
        Whose growers may be chosen.
    """

    role = forms.ChoiceField(
        label="Part in this district",
        choices=_PARTS,
        widget=forms.RadioSelect,
        error_messages={"required": "Choose one."},
    )
    grower = forms.ModelChoiceField(
        label="Grower",
        help_text="Only for a grower: whose fields they see.",
        queryset=Grower.objects.none(),
        required=False,
        empty_label="None",
    )

    def __init__(self, district: District, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        growers: Any = self.fields["grower"]
        growers.queryset = district.growers.order_by("name")

    def clean(self) -> dict[str, Any]:
        """See that a grower names whose fields they see, and nobody else does."""
        super().clean()
        if self.cleaned_data.get("role") != Role.GROWER:
            self.cleaned_data["grower"] = None
        elif not self.cleaned_data.get("grower") and "grower" not in self.errors:
            self.add_error("grower", "Choose whose fields this grower sees.")
        return self.cleaned_data


class AddPersonForm(PartForm):
    """Somebody who has no account yet."""

    name = forms.CharField(
        label="Name", max_length=80, error_messages={"required": "Type their name."}
    )
    sign_in_name = forms.CharField(
        label="Sign-in name",
        help_text="Letters and digits, without spaces; what they type to sign in.",
        max_length=60,
        widget=forms.TextInput(attrs={"autocapitalize": "none", "autocomplete": "off"}),
        error_messages={"required": "Choose a sign-in name."},
    )
    field_order = ("name", "sign_in_name", "role", "grower")

    def clean_sign_in_name(self) -> str:
        """See that nobody else signs in by this name."""
        name = str(self.cleaned_data["sign_in_name"]).strip()
        if not name.isprintable() or any(c.isspace() for c in name):
            raise forms.ValidationError("A sign-in name has no spaces.")
        if Person.objects.filter(sign_in_name__iexact=name).exists():
            raise forms.ValidationError("Somebody signs in by this name already.")
        return name
