"""Nothing that stands in a GeoPackage acts: no view, trigger, function or other file."""

from __future__ import annotations

import sqlite3
from pathlib import Path

import pytest
import shapely

from quarterwalk.files.boundaries import read_fields
from quarterwalk.files.geopackage_database import opened
from tests.files.drawings import block, geopackage, gp, placed, refusal

ROW = (gp(shapely.Polygon(block())), "A", "", 0)


def changed(folder: Path, more: str) -> Path:
    return geopackage(folder / "f.gpkg", ROW, more=more)


@pytest.mark.parametrize("table", ["fields", "gpkg_contents", "gpkg_geometry_columns",
                                   "gpkg_spatial_ref_sys"])  # fmt: skip
def test_a_view_in_place_of_a_table_is_refused(tmp_path: Path, table: str) -> None:
    view = f"ALTER TABLE {table} RENAME TO real_one; CREATE VIEW {table} AS SELECT * FROM real_one;"
    assert table in refusal(changed(tmp_path, view))


def test_an_endless_view_is_not_run(tmp_path: Path) -> None:
    endless = (
        "DROP TABLE fields; CREATE VIEW fields AS WITH RECURSIVE more(geom) AS "
        "(SELECT x'00' UNION ALL SELECT geom FROM more) SELECT geom, 'A' AS name FROM more;"
    )
    assert refusal(changed(tmp_path, endless))


def test_triggers_are_not_run(tmp_path: Path) -> None:
    trigger = (
        "CREATE TABLE log (said TEXT); CREATE TRIGGER t AFTER UPDATE ON fields BEGIN "
        "INSERT INTO log VALUES ('acted'); END;"
    )
    path = changed(tmp_path, trigger)
    before = path.read_bytes()
    assert len(read_fields(path).fields) == 1
    assert path.read_bytes() == before


def test_a_virtual_table_is_refused(tmp_path: Path) -> None:
    virtual = "DROP TABLE fields; CREATE VIRTUAL TABLE fields USING rtree(id, geom, name);"
    assert "no views" in refusal(changed(tmp_path, virtual))


def test_a_column_worked_out_by_a_function_is_refused(tmp_path: Path) -> None:
    column = "ALTER TABLE fields ADD COLUMN farm TEXT AS (zeroblob(1000000000)) VIRTUAL;"
    assert refusal(changed(tmp_path, column))


@pytest.mark.parametrize(
    "query",
    [
        "ATTACH DATABASE ':memory:' AS other",
        "INSERT INTO fields (name) VALUES ('B')",
        "DROP TABLE fields",
        "PRAGMA writable_schema = ON",
        "PRAGMA query_only = OFF",
        "SELECT load_extension('other')",
        "SELECT readfile('other')",
        "SELECT name FROM secret",
        "CREATE TEMP TABLE t (a)",
    ],
)
def test_even_our_own_query_could_not_do_more_than_read(tmp_path: Path, query: str) -> None:
    path = changed(tmp_path, "CREATE TABLE secret (name TEXT);")
    with opened(path, "f") as base:
        assert list(base.rows("fields", "name")) == [("A",)]
        with pytest.raises(sqlite3.DatabaseError):
            list(base._link.execute(query))


def test_a_long_query_is_stopped(tmp_path: Path) -> None:
    path = changed(tmp_path, "")
    with opened(path, "f") as base:
        base._left = 2
        endless = "SELECT 1 FROM sqlite_master a, sqlite_master b, sqlite_master c, " \
                  "sqlite_master d, sqlite_master e, sqlite_master f, sqlite_master g"  # fmt: skip
        with pytest.raises(sqlite3.OperationalError, match="interrupted"):
            list(base._link.execute(endless))


@pytest.mark.parametrize(
    "name", ['fields"; DROP TABLE fields; --', "sqlite_master", "", "fields\x00"]
)
def test_names_of_tables_are_names_and_nothing_else(tmp_path: Path, name: str) -> None:
    link = sqlite3.connect(changed(tmp_path, ""))
    link.execute("UPDATE gpkg_contents SET table_name = ?", (name,))
    link.execute("UPDATE gpkg_geometry_columns SET table_name = ?, column_name = 'geom'", (name,))
    link.commit()
    link.close()
    assert refusal(tmp_path / "f.gpkg")


@pytest.mark.parametrize(
    "more",
    [
        "UPDATE gpkg_geometry_columns SET column_name = 'elsewhere';",
        "UPDATE gpkg_geometry_columns SET column_name = 'geom\" FROM gpkg_contents; --';",
        "UPDATE gpkg_geometry_columns SET srs_id = 77;",
        "UPDATE gpkg_geometry_columns SET srs_id = 'many';",
        "DELETE FROM gpkg_geometry_columns;",
        "DELETE FROM gpkg_contents;",
        "DELETE FROM fields;",
        "DROP TABLE gpkg_spatial_ref_sys;",
        "UPDATE gpkg_spatial_ref_sys SET organization_coordsys_id = 999999;",
        "UPDATE gpkg_spatial_ref_sys SET organization_coordsys_id = 9223372036854775807;",
        "UPDATE gpkg_spatial_ref_sys SET organization = 'X', definition = '+init=/etc/hostname';",
    ],
)
def test_lists_that_are_not_true_are_refused(tmp_path: Path, more: str) -> None:
    assert refusal(changed(tmp_path, more))


def test_a_database_that_is_no_geopackage_is_refused(tmp_path: Path) -> None:
    link = sqlite3.connect(tmp_path / "f.gpkg")
    link.execute("CREATE TABLE a (b)")
    link.commit()
    link.close()
    assert "gpkg_contents" in refusal(tmp_path / "f.gpkg")


def test_a_file_that_only_begins_like_a_database_is_refused(tmp_path: Path) -> None:
    assert refusal(placed(tmp_path, "f.gpkg", b"SQLite format 3\x00"))
    assert refusal(placed(tmp_path, "g.gpkg", b"SQLite format 3\x00" + b"\xff" * 5000))
