"""A headless browser that prints pages: driven through a pipe, so that one process prints them all."""

import base64
import contextlib
import json
import os
import shutil
import subprocess
import tempfile

NAMES = ("chromium", "chromium-browser", "google-chrome")
INCH = 25.4
PAPER = {"A4": (210 / INCH, 297 / INCH), "Letter": (8.5, 11.0)}


def path():
    """The browser of this machine, or None."""
    return next(filter(None, map(shutil.which, NAMES)), None)


class Browser:
    """A browser with one page."""

    def __init__(self):
        # The browser reads what it is asked from its file 3, and writes its answers to its file 4.
        (self.asked, self.ask), (self.answers, self.answered) = os.pipe(), os.pipe()
        self.folder = tempfile.TemporaryDirectory(ignore_cleanup_errors=True)
        options = ["--headless", "--no-sandbox", "--disable-gpu", "--remote-debugging-pipe", "--hide-scrollbars"]
        options += [f"--user-data-dir={self.folder.name}", "--no-first-run", "about:blank"]
        line = f'exec "$0" "$@" 3<&{self.asked} 4>&{self.answered}'
        self.process = subprocess.Popen(
            ["bash", "-c", line, path(), *options],
            pass_fds=(self.asked, self.answered),
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        )
        os.close(self.asked)
        os.close(self.answered)
        self.count, self.rest, self.session = 0, b"", None
        target = self.call("Target.createTarget", url="about:blank")["targetId"]
        self.session = self.call("Target.attachToTarget", targetId=target, flatten=True)["sessionId"]
        self.frame = self.call("Page.getFrameTree")["frameTree"]["frame"]["id"]

    def call(self, method, **parameters):
        self.count += 1
        question = {"id": self.count, "method": method, "params": parameters}
        if self.session:
            question["sessionId"] = self.session
        text = json.dumps(question).encode() + b"\0"
        while text:
            text = text[os.write(self.ask, text) :]
        while True:
            while b"\0" not in self.rest:
                piece = os.read(self.answers, 1 << 20)
                if not piece:
                    raise RuntimeError("the browser has ended")
                self.rest += piece
            message, _, self.rest = self.rest.partition(b"\0")
            answer = json.loads(message)
            if answer.get("id") == self.count:
                if "error" in answer:
                    raise RuntimeError(f"{method}: {answer['error']}")
                return answer["result"]

    def show(self, html):
        self.call("Page.setDocumentContent", frameId=self.frame, html=html)

    def evaluate(self, expression):
        return self.call("Runtime.evaluate", expression=expression, returnByValue=True)["result"].get("value")

    def pdf(self, paper):
        width, height = PAPER[paper]
        printed = self.call("Page.printToPDF", paperWidth=width, paperHeight=height, preferCSSPageSize=True, printBackground=True)
        return base64.b64decode(printed["data"])

    def picture(self, paper):
        """The page as wide as a paper, as a PNG."""
        width, height = (round(96 * side) for side in PAPER[paper])
        self.call("Emulation.setDeviceMetricsOverride", width=width, height=height, deviceScaleFactor=1, mobile=False)
        return base64.b64decode(self.call("Page.captureScreenshot", format="png")["data"])

    def close(self):
        with contextlib.suppress(RuntimeError, OSError):
            self.call("Browser.close")
        os.close(self.ask)
        os.close(self.answers)
        self.process.wait(20)
        self.folder.cleanup()
