#!/usr/bin/env python3
"""Seconds from the start of the program to its first frame on the screen, six times.

Usage: first_frame.py PROGRAM [FILE]    (needs Xvfb and libX11; the window is drawn by software OpenGL)

A server of its own is started, black at first; the first frame is there when a point at the right edge of the
window has a colour.
"""
import ctypes
import os
import subprocess
import sys
import tempfile
import time

SIZE = (1280, 800)
PROBE = (1240, 40)
Z_PIXMAP = 2

server = subprocess.Popen(
    ["Xvfb", "-displayfd", "1", "-screen", "0", "%dx%dx24" % SIZE, "-nolisten", "tcp"],
    stdout=subprocess.PIPE,
    stderr=subprocess.DEVNULL,
)
display = ":" + server.stdout.readline().decode().strip()
home = tempfile.mkdtemp()
environment = dict(os.environ, DISPLAY=display, HOME=home)
environment.pop("WAYLAND_DISPLAY", None)

x = ctypes.CDLL("libX11.so.6")
x.XOpenDisplay.restype = ctypes.c_void_p
x.XDefaultRootWindow.restype = ctypes.c_ulong
x.XDefaultRootWindow.argtypes = [ctypes.c_void_p]
x.XGetImage.restype = ctypes.c_void_p
x.XGetImage.argtypes = [ctypes.c_void_p, ctypes.c_ulong, ctypes.c_int, ctypes.c_int,
                        ctypes.c_uint, ctypes.c_uint, ctypes.c_ulong, ctypes.c_int]
x.XGetPixel.restype = ctypes.c_ulong
x.XGetPixel.argtypes = [ctypes.c_void_p, ctypes.c_int, ctypes.c_int]
x.XDestroyImage.argtypes = [ctypes.c_void_p]
connection = x.XOpenDisplay(display.encode())
root = x.XDefaultRootWindow(connection)


def colour():
    image = x.XGetImage(connection, root, PROBE[0], PROBE[1], 1, 1, 0xFFFFFFFF, Z_PIXMAP)
    value = x.XGetPixel(image, 0, 0)
    x.XDestroyImage(image)
    return value


try:
    empty = colour()
    for _ in range(6):
        begin = time.monotonic()
        program = subprocess.Popen(sys.argv[1:], env=environment,
                                   stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        while colour() == empty and time.monotonic() - begin < 20.0:
            time.sleep(0.002)
        print("%.3f s" % (time.monotonic() - begin))
        program.terminate()
        program.wait()
        while colour() != empty:
            time.sleep(0.01)
finally:
    server.terminate()
