"""A real browser without a window, driven by Selenium over WebDriver, the W3C's protocol."""

import base64
import json
import os
import re
import shutil
from contextlib import contextmanager
from unittest.mock import patch

from selenium.webdriver import Chrome, ChromeOptions
from selenium.webdriver.chrome.service import Service
from selenium.webdriver.common.print_page_options import PrintOptions
from selenium.webdriver.support.ui import WebDriverWait

CHROMIUM = shutil.which("chromium") or shutil.which("chromium-browser")
DRIVER = shutil.which("chromedriver")
#: Why a test that needs the browser is skipped, '' where it is there.
MISSING = "" if CHROMIUM and DRIVER else "chromium and its chromedriver are not installed here"
#: Paper sizes, width and height [cm].
PAPER = {"A4": (21.0, 29.7), "Letter": (21.59, 27.94)}
_POINTS_PER_CM = 72.0 / 2.54
_ARGUMENTS = (
    "--headless=new",
    "--disable-gpu",
    "--disable-dev-shm-usage",
    "--hide-scrollbars",
    "--force-device-scale-factor=1",
)


class Browser:
    """A session of the browser."""

    def __init__(self, driver):
        self.driver = driver
        driver.get("about:blank")  # away from the browser's own first page

    def open(self, path):
        """Open a file, with what was logged before it forgotten, and wait until it is whole."""
        self.console()
        self.requests()
        self.driver.get(path.resolve().as_uri())
        # The driver may answer a moment before the page has settled.
        WebDriverWait(self.driver, 5, 0.05).until(
            lambda _: self.run("return document.readyState") == "complete"
        )

    def resize(self, width, height):
        """Give the page a width and a height [px]."""
        self.cdp(
            "Emulation.setDeviceMetricsOverride",
            width=width,
            height=height,
            deviceScaleFactor=1,
            mobile=False,
        )

    def media(self, name):
        """Show the page as on 'screen' or in 'print'."""
        self.cdp("Emulation.setEmulatedMedia", media=name)

    def reset(self):
        """Show the page in its own size and medium again."""
        self.cdp("Emulation.clearDeviceMetricsOverride")
        self.media("")

    def cdp(self, command, **parameters):
        """Send a command of the browser's own."""
        return self.driver.execute_cdp_cmd(command, parameters)

    def run(self, script):
        """What a script of ours, run in the page, returns."""
        return self.driver.execute_script(script)

    def console(self):
        """What was said on the console since it was asked last."""
        return [x["message"] for x in self.driver.get_log("browser")]

    def requests(self):
        """The addresses the page asked for since this was asked last."""
        rows = self.driver.get_log("performance")
        messages = [json.loads(row["message"])["message"] for row in rows]
        sent = [m["params"] for m in messages if m["method"] == "Network.requestWillBeSent"]
        ours = [s for s in sent if not s.get("documentURL", "").startswith("chrome")]
        return [s["request"]["url"] for s in ours]

    def screenshot(self, path):
        """Write what is seen as PNG."""
        path.write_bytes(self.driver.get_screenshot_as_png())

    def pdf(self, paper):
        """The page printed on a paper of PAPER, as PDF."""
        page = PrintOptions()
        page.page_width, page.page_height = PAPER[paper]
        page.background, page.shrink_to_fit = True, False
        return base64.b64decode(self.driver.print_page(page))


def pages_of(pdf):
    """How many pages a PDF has, and their size [pt]."""
    boxes = re.findall(rb"/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)\s*\]", pdf)
    count = len(re.findall(rb"/Type\s*/Page\b(?!s)", pdf))
    return count, {(round(float(w)), round(float(h))) for w, h in boxes}


def points(paper):
    """Width and height of a paper [pt]."""
    return tuple(round(x * _POINTS_PER_CM) for x in PAPER[paper])


@contextmanager
def browser(folder):
    """A browser with its settings in a folder; its processes end with it."""
    options = ChromeOptions()
    options.binary_location = CHROMIUM
    # A browser run by root refuses to start in its sandbox.
    root = ("--no-sandbox",) if hasattr(os, "geteuid") and os.geteuid() == 0 else ()
    for argument in (*_ARGUMENTS, *root, f"--user-data-dir={folder}"):
        options.add_argument(argument)
    options.set_capability("goog:loggingPrefs", {"browser": "ALL", "performance": "ALL"})
    # The driver is on this machine: never by way of a proxy.
    with patch.dict(os.environ, no_proxy="localhost,127.0.0.1"):
        driver = Chrome(options, Service(DRIVER))
    try:
        yield Browser(driver)
    finally:
        driver.quit()
