"""A local Spark session of two workers; without Spark or Java the tests of this folder skip."""

import shutil

import pytest


@pytest.fixture(scope="session")
def session():
    pytest.importorskip("pyspark", reason="the extra woodref[spark] is not installed")
    if shutil.which("java") is None:
        pytest.skip("no Java runtime is found")
    from pyspark.sql import SparkSession

    made = (
        SparkSession.builder.master("local[2]")
        .appName("woodref tests")
        .config("spark.ui.enabled", "false")
        .config("spark.sql.shuffle.partitions", "2")
        .config("spark.driver.bindAddress", "127.0.0.1")
        .config("spark.driver.host", "127.0.0.1")
        .getOrCreate()
    )
    made.sparkContext.setLogLevel("ERROR")
    yield made
    made.stop()


@pytest.fixture(autouse=True)
def without_the_user_s_own(monkeypatch, tmp_path_factory):
    folder = tmp_path_factory.mktemp("nothing")
    empty = folder / "config.toml"
    empty.write_text("")
    monkeypatch.setenv("WOODREF_CONFIG", str(empty))
    monkeypatch.setenv("WOODREF_DATA", str(folder))
