"""pip trusts what the user told it to trust, or else what the system trusts."""

from __future__ import annotations

from pathlib import Path

import pytest

from certificates import pip_certificates


def test_a_certificate_told_to_pip_is_left_alone() -> None:
    assert pip_certificates({"cert": "company.pem"}, {"SSL_CERT_FILE": __file__}) == {}


@pytest.mark.parametrize("name", ["PIP_CERT", "REQUESTS_CA_BUNDLE", "CURL_CA_BUNDLE"])
def test_a_certificate_in_the_environment_is_left_alone(name: str) -> None:
    assert pip_certificates({}, {name: "company.pem", "SSL_CERT_FILE": __file__}) == {}


def test_a_certificate_told_to_every_program_is_told_to_pip(tmp_path: Path) -> None:
    bundle = tmp_path / "company.pem"
    bundle.write_text("")
    assert pip_certificates({}, {"SSL_CERT_FILE": str(bundle)}) == {"PIP_CERT": str(bundle)}


def test_a_certificate_that_is_not_there_is_not_passed_on() -> None:
    assert pip_certificates({}, {"SSL_CERT_FILE": "nowhere.pem"}) == {}
