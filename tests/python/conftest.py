"""The mark of tests for which a light environment, with numpy and pytest alone, lacks the libraries."""


def pytest_configure(config):
    config.addinivalue_line("markers", "libraries: needs pandas, xarray, dask, distributed, pint, scipy, markdown-it-py, mistune, mypy or pypdf")
