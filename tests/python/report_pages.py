"""What every report must be, and a real browser to look at one."""

import html.parser
import os
import re
import shutil
import subprocess

import pytest

import wingnose


class Document(html.parser.HTMLParser):
    """Texts, tables by their id, and every attribute of a page."""

    def __init__(self, text):
        super().__init__()
        self.tags, self.tables, self.texts = [], {}, []
        self._table, self._cell, self._skip, self.headings = None, None, 0, []
        self.feed(text)

    def handle_starttag(self, tag, attrs):
        self.tags.append((tag, dict(attrs)))
        if tag == "table":
            self._table = self.tables.setdefault(dict(attrs).get("id"), [])
        elif tag == "tr" and self._table is not None:
            self._table.append([])
        elif tag in ("td", "th") and self._table:
            self._table[-1].append("")
        self._skip += tag in ("style", "script")

    def handle_endtag(self, tag):
        self._skip -= tag in ("style", "script")
        if tag == "table":
            self._table = None

    def handle_data(self, data):
        if self._skip:
            return
        self.texts.append(data)
        if self._table and self._table[-1]:
            self._table[-1][-1] += data

    @property
    def text(self):
        return " ".join(" ".join(self.texts).split())


def outside(document):
    """Everything a page would fetch from elsewhere."""
    found = []
    for tag, attributes in document.tags:
        for name in ("src", "href", "xlink:href", "data", "srcset", "action"):
            value = attributes.get(name) or ""
            if value and not value.startswith(("#", "data:")):
                found.append((tag, value))
    return found


def check_page(text):
    document = Document(text)
    assert outside(document) == []
    assert re.findall(r"url\((?!#)[^)]*\)|@import", text) == []
    assert ("html", {"lang": "en"}) in document.tags
    assert not any(tag == "script" for tag, _ in document.tags)
    ids = [attributes["id"] for _, attributes in document.tags if "id" in attributes]
    assert len(ids) == len(set(ids))
    drawings = [attributes for tag, attributes in document.tags if tag == "svg"]
    assert drawings and all(one["role"] == "img" and one["aria-labelledby"] in ids for one in drawings)
    titles = re.findall(r"<svg[^>]*><title[^>]*>([^<]+)</title>", text)
    assert len(titles) == len(drawings) and all(len(title) > 30 for title in titles)
    for tag, attributes in document.tags:
        if tag == "th":
            assert attributes["scope"] in ("row", "col")
        if tag in ("section", "main") and "aria-labelledby" in attributes:
            assert attributes["aria-labelledby"] in ids
    assert document.text.count(wingnose.CAUTION) >= 2  # at the top and at the foot
    assert "nan" not in re.sub(r"[A-Za-z]nan|nan[A-Za-z]", "", document.text)
    return document


@pytest.fixture(scope="session")
def browser(tmp_path_factory):
    """Runs headless chromium on a page; returns its standard output and error."""
    found = next(filter(None, map(shutil.which, ("chromium", "chromium-browser", "google-chrome"))), None)
    if found is None:
        if os.environ.get("WINGNOSE_NEED_BROWSER"):
            pytest.fail("WINGNOSE_NEED_BROWSER is set, but no chromium is on the PATH")
        pytest.skip("no chromium on the PATH; set WINGNOSE_NEED_BROWSER to make this a failure")
    profile = tmp_path_factory.mktemp("browser")
    always = ["--headless", "--no-sandbox", "--disable-gpu", "--hide-scrollbars", "--enable-logging=stderr",
              "--disable-background-networking", "--disable-component-update", "--no-first-run",
              "--host-resolver-rules=MAP * ~NOTFOUND", f"--user-data-dir={profile}"]  # fmt: skip

    def run(file, *arguments):
        done = subprocess.run([found, *always, *arguments, file.as_uri()], capture_output=True, text=True,
                              encoding="utf-8", timeout=90, check=True)  # fmt: skip
        return done.stdout, done.stderr

    return run


def console(log):
    return [line for line in log.splitlines() if "CONSOLE" in line]
