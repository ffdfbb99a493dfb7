"""A real browser without a window, driven over WebDriver, the W3C's protocol, by plain HTTP."""

import base64
import json
import os
import re
import shutil
import subprocess
import time
from contextlib import contextmanager
from urllib.request import ProxyHandler, Request, build_opener

CHROMIUM = shutil.which("chromium") or shutil.which("chromium-browser")
DRIVER = shutil.which("chromedriver")
#: Why a test that needs the browser is skipped, '' where it is there.
MISSING = "" if CHROMIUM and DRIVER else "chromium and its chromedriver are not installed here"
#: Paper sizes, width and height [cm].
PAPER = {"A4": (21.0, 29.7), "Letter": (21.59, 27.94)}
_POINTS_PER_CM = 72.0 / 2.54
#: Never by way of a proxy: the driver is on this machine.
_OPENER = build_opener(ProxyHandler({}))
_ARGUMENTS = [
    "--headless=new",
    "--disable-gpu",
    "--disable-dev-shm-usage",
    "--hide-scrollbars",
    "--force-device-scale-factor=1",
]


class Browser:
    """A session of the browser."""

    def __init__(self, port, folder):
        self.root = f"http://127.0.0.1:{port}"
        # A browser run by root refuses to start in its sandbox.
        root = ["--no-sandbox"] if hasattr(os, "geteuid") and os.geteuid() == 0 else []
        options = {
            "binary": CHROMIUM,
            "args": [*_ARGUMENTS, *root, f"--user-data-dir={folder}"],
        }
        wanted = {
            "browserName": "chrome",
            "goog:chromeOptions": options,
            "goog:loggingPrefs": {"browser": "ALL", "performance": "ALL"},
        }
        found = self._post("/session", {"capabilities": {"alwaysMatch": wanted}})
        self.root += f"/session/{found['sessionId']}"
        self._post("/url", {"url": "about:blank"})  # away from the browser's own first page

    def _send(self, method, path, body=None):
        data = None if body is None else json.dumps(body).encode()
        headers = {"Content-Type": "application/json"}
        request = Request(self.root + path, data, headers, method=method)
        with _OPENER.open(request, timeout=120) as answer:
            return json.load(answer)["value"]

    def _post(self, path, body):
        return self._send("POST", path, body)

    def open(self, path):
        """Open a file, with what was logged before it forgotten, and wait until it is whole."""
        self.console()
        self.requests()
        self._post("/url", {"url": path.resolve().as_uri()})
        # The driver may answer a moment before the page has settled.
        for _ in range(100):
            if self.run("return document.readyState") == "complete":
                return
            time.sleep(0.05)

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
        return self._post("/goog/cdp/execute", {"cmd": command, "params": parameters})

    def run(self, script):
        """What a script of ours, run in the page, returns."""
        return self._post("/execute/sync", {"script": script, "args": []})

    def console(self):
        """What was said on the console since it was asked last."""
        return [x["message"] for x in self._post("/se/log", {"type": "browser"})]

    def requests(self):
        """The addresses the page asked for since this was asked last."""
        rows = self._post("/se/log", {"type": "performance"})
        messages = [json.loads(row["message"])["message"] for row in rows]
        sent = [m["params"] for m in messages if m["method"] == "Network.requestWillBeSent"]
        ours = [s for s in sent if not s.get("documentURL", "").startswith("chrome")]
        return [s["request"]["url"] for s in ours]

    def screenshot(self, path):
        """Write what is seen as PNG."""
        path.write_bytes(base64.b64decode(self._send("GET", "/screenshot")))

    def pdf(self, paper):
        """The page printed on a paper of PAPER, as PDF."""
        width, height = PAPER[paper]
        page = {"width": width, "height": height}
        printed = self._post("/print", {"page": page, "background": True, "shrinkToFit": False})
        return base64.b64decode(printed)

    def close(self):
        """End the session."""
        self._send("DELETE", "")


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
    process = subprocess.Popen(
        [DRIVER, "--port=0"], stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True
    )
    session = None
    try:
        port = next(
            (
                m[1]
                for line in process.stdout
                if (m := re.search(r"started successfully on port (\d+)", line))
            ),
            None,
        )
        assert port, "the driver of the browser did not start"
        session = Browser(port, folder)
        yield session
    finally:
        if session:
            session.close()
        process.terminate()
        process.wait(10)
        process.stdout.close()
