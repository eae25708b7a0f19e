"""uv fetches from where the user told pip to fetch from."""

from __future__ import annotations

from indexes import pip_settings, uv_environment

LISTING = """\
:env:.cert='/certs/company.pem'
:env:.default-timeout='180'
global.cert='/certs/old.pem'
global.extra-index-url='file:///mirror/one file:///mirror/two'
global.index-url='https://mirror.example/simple'
install.find-links='\\nwheels\\nmore-wheels'
freeze.timeout='5'
"""


def test_a_setting_from_the_environment_wins_over_the_file() -> None:
    assert pip_settings(LISTING)["cert"] == "/certs/company.pem"


def test_a_setting_for_another_command_of_pip_is_not_taken() -> None:
    assert pip_settings(LISTING)["timeout"] == "180"


def test_the_mirror_certificate_and_wheel_folders_reach_uv() -> None:
    assert uv_environment(pip_settings(LISTING), {}) == {
        "SSL_CERT_FILE": "/certs/company.pem",
        "UV_HTTP_TIMEOUT": "180",
        "UV_DEFAULT_INDEX": "https://mirror.example/simple",
        "UV_INDEX": "file:///mirror/one file:///mirror/two",
        "UV_INDEX_STRATEGY": "unsafe-best-match",
        "UV_FIND_LINKS": "wheels,more-wheels",
    }


def test_without_settings_uv_trusts_what_the_system_trusts() -> None:
    assert uv_environment({}, {}) == {"UV_SYSTEM_CERTS": "1"}


def test_one_index_alone_needs_no_search_through_several() -> None:
    given = uv_environment({"index-url": "https://mirror.example/simple"}, {})
    assert "UV_INDEX_STRATEGY" not in given


def test_what_the_user_told_uv_is_left_alone() -> None:
    own = {"UV_INDEX_URL": "https://own.example/simple", "UV_HTTP_TIMEOUT": "7"}
    given = uv_environment(pip_settings(LISTING), own)
    assert not {"UV_DEFAULT_INDEX", "UV_INDEX", "UV_HTTP_TIMEOUT"} & set(given)


def test_a_certificate_folder_of_the_user_is_left_alone() -> None:
    assert uv_environment({}, {"SSL_CERT_DIR": "/certs"}) == {}


def test_no_index_means_no_index_for_uv_either() -> None:
    pip = {"no-index": "1", "index-url": "https://mirror.example/simple", "find-links": "wheels"}
    given = uv_environment(pip, {"SSL_CERT_DIR": "/certs"})
    assert given == {"UV_NO_INDEX": "1", "UV_FIND_LINKS": "wheels"}


def test_proxy_and_trusted_host_reach_uv() -> None:
    pip = {"proxy": "http://gate.example:3128", "trusted-host": "mirror.example"}
    given = uv_environment(pip, {})
    assert given["ALL_PROXY"] == "http://gate.example:3128"
    assert given["UV_INSECURE_HOST"] == "mirror.example"
