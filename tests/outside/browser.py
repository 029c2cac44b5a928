"""Chromium without a window, asked over a pipe by the DevTools protocol: nothing to install but the browser itself."""

import base64
import fcntl
import json
import os
import select
import shutil
import subprocess
import tempfile
import time

# A browser that is nobody's own, asks nobody's host and draws with the processor.
FLAGS = """--headless --no-sandbox --disable-gpu --disable-quic --no-first-run --disable-background-networking
--disable-component-update --disable-sync --disable-dev-shm-usage --hide-scrollbars --remote-debugging-pipe""".split()
# How long one answer may take, s: the machine may be busy.
PATIENCE = 60
INCH = 25.4


class Browser:
    """One browser; each page it opens is its own, with a page's own scripts switched off."""

    def __init__(self):
        program = shutil.which("chromium")
        if program is None:
            raise OSError("there is no chromium: install the package of that name")
        self.folder = tempfile.TemporaryDirectory(prefix="outside-browser-")
        there, here = os.pipe(), os.pipe()
        # The browser reads from its descriptor 3 and writes to 4; these are moved out of the way of both first.
        ends = [fcntl.fcntl(end, fcntl.F_DUPFD, 10) for end in (there[0], here[1])]
        for end in (there[0], here[1]):
            os.close(end)
        self.process = subprocess.Popen(
            [program, *FLAGS, f"--user-data-dir={self.folder.name}", "about:blank"],
            stdin=subprocess.DEVNULL,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            preexec_fn=lambda: [os.dup2(end, number) for end, number in zip(ends, (3, 4))],
            pass_fds=(3, 4),
        )
        for end in ends:
            os.close(end)
        self.writes, self.reads = there[1], here[0]
        self.held, self.count, self.events = b"", 0, []

    def __enter__(self):
        return self

    def __exit__(self, *_):
        os.close(self.writes)
        try:
            self.process.wait(timeout=10)
        except subprocess.TimeoutExpired:
            self.process.kill()
            self.process.wait()
        os.close(self.reads)
        self.folder.cleanup()

    def ask(self, method, session=None, **wants):
        """What the browser answers; an error of its is one here."""
        self.count += 1
        question = {"id": self.count, "method": method, "params": wants}
        if session:
            question["sessionId"] = session
        os.write(self.writes, json.dumps(question).encode() + b"\0")
        answer = self._next(lambda told: told.get("id") == self.count)
        if "error" in answer:
            raise ValueError(f"{method}: {answer['error']['message']}")
        return answer["result"]

    def wait(self, method, session):
        """The next event of this kind, or the last that came already."""
        for told in self.events:
            if told.get("method") == method and told.get("sessionId") == session:
                return told
        return self._next(lambda told: told.get("method") == method and told.get("sessionId") == session)

    def _next(self, wanted):
        end = time.monotonic() + PATIENCE
        while True:
            head, stop, rest = self.held.partition(b"\0")
            if stop:
                self.held = rest
                told = json.loads(head)
                if "method" in told:
                    self.events.append(told)
                if wanted(told):
                    return told
            elif not select.select([self.reads], [], [], max(0.0, end - time.monotonic()))[0]:
                raise OSError("the browser does not answer")
            elif not (more := os.read(self.reads, 1 << 20)):
                raise OSError("the browser has ended")
            else:
                self.held += more


class Page:
    """One page from disk."""

    def __init__(self, browser, path):
        self.browser = browser
        target = browser.ask("Target.createTarget", url="about:blank")["targetId"]
        self.target = target
        self.session = browser.ask("Target.attachToTarget", targetId=target, flatten=True)["sessionId"]
        for domain in ("Page", "Network", "Runtime", "Accessibility"):
            self.ask(f"{domain}.enable")
        self.ask("Emulation.setScriptExecutionDisabled", value=True)
        self.url = path.resolve().as_uri()
        browser.events.clear()
        self.ask("Page.navigate", url=self.url)
        browser.wait("Page.loadEventFired", self.session)

    def ask(self, method, **wants):
        return self.browser.ask(method, self.session, **wants)

    def asked_for(self):
        """The addresses that it wanted besides its own."""
        sent = [told["params"]["request"]["url"] for told in self.browser.events
                if told.get("method") == "Network.requestWillBeSent" and told.get("sessionId") == self.session]
        return [url for url in sent if url != self.url]

    def sized(self, width, height, media="screen"):
        """Shows it in a window of so many CSS pixels."""
        self.ask("Emulation.setDeviceMetricsOverride", width=width, height=height, deviceScaleFactor=1,
                 mobile=width < 800 and media == "screen")
        self.ask("Emulation.setEmulatedMedia", media=media)

    def found(self, script):
        """What a script of ours makes of it."""
        answer = self.ask("Runtime.evaluate", expression=script, returnByValue=True)
        if "exceptionDetails" in answer:
            raise ValueError(answer["exceptionDetails"]["exception"].get("description", "a script failed"))
        return answer["result"].get("value")

    def heard(self):
        """What a screen reader is given: roles and names."""
        nodes = [node for node in self.ask("Accessibility.getFullAXTree")["nodes"] if not node.get("ignored")]
        return [(node["role"]["value"], node.get("name", {}).get("value", "")) for node in nodes]

    def shot(self, path, whole=True):
        answer = self.ask("Page.captureScreenshot", format="png", captureBeyondViewport=whole)
        path.write_bytes(base64.b64decode(answer["data"]))

    def printed(self, width, height):
        """Its pages on paper of this size, mm, as PDF."""
        answer = self.ask("Page.printToPDF", paperWidth=width / INCH, paperHeight=height / INCH,
                          preferCSSPageSize=False, printBackground=False)
        return base64.b64decode(answer["data"])

    def close(self):
        self.browser.ask("Target.closeTarget", targetId=self.target)
