#!/usr/bin/env python3
"""Opens a review page from disk in headless Chromium and prints when its load event had ended.

usage: page-load.py review.html   (needs chromium and chromedriver on the PATH)
"""
import json
import os
import subprocess
import sys
import time
import urllib.request

PORT = 9777


def call(method, path, body=None):
    request = urllib.request.Request(
        f"http://localhost:{PORT}{path}",
        json.dumps(body).encode() if body is not None else None,
        {"Content-Type": "application/json"},
        method=method,
    )
    with urllib.request.urlopen(request) as answer:
        return json.load(answer)["value"]


def main():
    page = "file://" + os.path.abspath(sys.argv[1])
    driver = subprocess.Popen(["chromedriver", f"--port={PORT}"], stdout=subprocess.DEVNULL)
    try:
        for _ in range(100):
            try:
                call("GET", "/status")
                break
            except OSError:
                time.sleep(0.1)
        options = {"args": ["--headless", "--no-sandbox", "--disable-gpu", "--window-size=1400,1000"]}
        capabilities = {"browserName": "chrome", "goog:chromeOptions": options}
        for run in range(5):
            session = call("POST", "/session", {"capabilities": {"alwaysMatch": capabilities}})
            path = "/session/" + session["sessionId"]
            call("POST", path + "/url", {"url": page})
            script = "return performance.getEntriesByType('navigation')[0].loadEventEnd"
            ended = call("POST", path + "/execute/sync", {"script": script, "args": []})
            print(f"run {run + 1}: loaded after {ended:.0f} ms")
            call("DELETE", path)
    finally:
        driver.terminate()


main()
