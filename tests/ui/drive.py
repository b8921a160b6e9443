"""Drives the window as a person would, on a display of its own, and reads what it shows.

    with Desk() as desk:
        program = desk.start([path_to_program])
        program.one("push button", "Tick all").act()
        program.one("table cell", ...).text

A Desk is a private X server, session bus, accessibility bus and window manager; everything it started
ends with it. The program is read over AT-SPI spoken plainly on D-Bus (nothing is remembered between
calls, so nothing goes stale), clicked by xdotool where GTK 4.8 gives a widget no action of its own.
"""
import ctypes
import os
import re
import shutil
import signal
import subprocess
import tempfile
import time

import gi

gi.require_version("Atspi", "2.0")
from gi.repository import Atspi, Gio, GLib  # noqa: E402

ROOT = "/org/a11y/atspi/accessible/root"
ROLES = {number: Atspi.role_get_name(Atspi.Role(number)) for number in range(int(Atspi.Role.LAST_DEFINED))}
IN_WINDOW = 1  # the only frame of reference GTK 4 knows


class Missing(AssertionError):
    """Something that should have appeared did not."""


def until(question, seconds=10, what="an answer"):
    """The first true answer of question(), asked again and again."""
    end = time.monotonic() + seconds
    while True:
        answer = question()
        if answer:
            return answer
        if time.monotonic() > end:
            raise Missing("waited %g s in vain for %s" % (seconds, what))
        time.sleep(0.03)


def die_with_parent():
    ctypes.CDLL(None).prctl(1, signal.SIGTERM)


class Desk:
    def __init__(self, size=(1280, 800), scale=1, theme=None, keep_home=None):
        self.home = keep_home or tempfile.mkdtemp(prefix="wattberth-ui-")
        self.own_home = keep_home is None
        self.size = size
        self.children = []
        passed = ("PATH", "ASAN_OPTIONS", "LSAN_OPTIONS", "UBSAN_OPTIONS", "G_SLICE")
        self.env = {key: os.environ[key] for key in passed if key in os.environ}
        self.env.update(
            LC_ALL="C.UTF-8", TZ="UTC", HOME=self.home, XDG_RUNTIME_DIR=self.home,
            XDG_CONFIG_HOME=self.home + "/config", XDG_DATA_HOME=self.home + "/data",
            XDG_CACHE_HOME=tempfile.gettempdir() + "/wattberth-ui-cache", GDK_BACKEND="x11", GSK_RENDERER="cairo",
            GDK_DEBUG="gl-disable", GSETTINGS_BACKEND="memory", GTK_A11Y="atspi", GDK_SCALE=str(scale),
            GTK_IM_MODULE="gtk-im-context-simple", GIO_USE_VFS="local", NO_AT_BRIDGE="1", G_DEBUG="fatal-criticals")
        # GTK 4.8 leaks a little each time its actions are listed over AT-SPI; leaks are sought in ui-pages.
        self.env["ASAN_OPTIONS"] = ":".join(filter(None, [self.env.get("ASAN_OPTIONS"), "detect_leaks=0"]))
        if theme:
            self.env["GTK_THEME"] = theme
        self.scale = scale
        os.makedirs(self.home + "/config/gtk-4.0", exist_ok=True)
        with open(self.home + "/config/gtk-4.0/settings.ini", "w") as settings:
            settings.write("[Settings]\ngtk-enable-animations=0\ngtk-cursor-blink=0\n")

    def __enter__(self):
        try:
            self.open()
        except BaseException:
            self.close()
            raise
        return self

    def __exit__(self, *failure):
        self.close()

    def spawn(self, argv, **options):
        options.setdefault("stdout", subprocess.DEVNULL)
        options.setdefault("stderr", subprocess.DEVNULL)
        child = subprocess.Popen(argv, env=self.env, stdin=subprocess.DEVNULL, start_new_session=True,
                                 preexec_fn=die_with_parent, **options)
        self.children.append(child)
        return child

    def open(self):
        reading, writing = os.pipe()
        self.spawn(["Xvfb", "-displayfd", str(writing), "-screen", "0", "%dx%dx24" % self.size, "-nolisten", "tcp",
                    "-noreset"], pass_fds=(writing,))
        os.close(writing)
        with os.fdopen(reading) as answer:
            number = answer.readline().strip()
        if not number:
            raise Missing("Xvfb did not start")
        self.env["DISPLAY"] = ":" + number
        bus = self.spawn(["dbus-daemon", "--session", "--nofork", "--nosyslog", "--print-address=1"],
                         stdout=subprocess.PIPE)
        self.env["DBUS_SESSION_BUS_ADDRESS"] = bus.stdout.readline().decode().strip()
        self.session = connect(self.env["DBUS_SESSION_BUS_ADDRESS"])
        self.spawn(["/usr/libexec/at-spi-bus-launcher", "--launch-immediately"])
        self.spawn(["openbox", "--sm-disable", "--config-file", self.window_manager_settings()])
        address = until(self.accessibility_address, 10, "the accessibility bus")
        self.bus = connect(address)

    def window_manager_settings(self):
        """No key of its own, which would swallow the program's."""
        path = self.home + "/openbox.xml"
        with open(path, "w") as settings:
            settings.write('<?xml version="1.0"?><openbox_config xmlns="http://openbox.org/3.4/rc"><keyboard/>'
                           "<focus><focusNew>yes</focusNew></focus><applications><application class='*'>"
                           "<decor>no</decor><position force='yes'><x>0</x><y>0</y></position></application>"
                           "</applications></openbox_config>")
        return path

    def accessibility_address(self):
        try:
            return self.session.call_sync("org.a11y.Bus", "/org/a11y/bus", "org.a11y.Bus", "GetAddress", None, None, 0,
                                          2000, None).unpack()[0]
        except GLib.Error:
            return None

    def close(self):
        for child in reversed(self.children):
            if child.poll() is None:
                child.terminate()
                try:
                    child.wait(5)
                except subprocess.TimeoutExpired:
                    child.kill()
                    child.wait()
        if self.own_home:
            shutil.rmtree(self.home, ignore_errors=True)

    def start(self, argv, seconds=30):
        return Program(self, argv, seconds)

    def x(self, *arguments):
        done = subprocess.run(["xdotool"] + [str(a) for a in arguments], env=self.env, capture_output=True, text=True)
        if done.returncode:
            raise Missing("xdotool %s: %s" % (arguments, done.stderr.strip()))
        return done.stdout.strip()

    def keys(self, *names):
        self.x("key", "--clearmodifiers", "--delay", 15, *names)

    def write(self, text):
        self.x("type", "--delay", 15, "--", text)

    def picture(self, path):
        subprocess.run(["import", "-silent", "-window", "root", path], env=self.env, check=True)
        return path


def connect(address):
    flags = Gio.DBusConnectionFlags.AUTHENTICATION_CLIENT | Gio.DBusConnectionFlags.MESSAGE_BUS_CONNECTION
    bus = Gio.DBusConnection.new_for_address_sync(address, flags, None, None)
    bus.set_exit_on_close(False)
    return bus


class Program:
    def __init__(self, desk, argv, seconds):
        self.desk = desk
        self.log = tempfile.NamedTemporaryFile(dir=desk.home, suffix=".log", delete=False).name
        began = time.monotonic()
        with open(self.log, "wb") as output:
            self.process = desk.spawn(argv, stdout=output, stderr=subprocess.STDOUT)
        self.name = None
        until(self.on_the_bus, seconds, "the program's window; it said: " + self.said())
        self.seconds_to_window = time.monotonic() - began

    def said(self):
        with open(self.log, errors="replace") as output:
            return output.read()

    def on_the_bus(self):
        if self.process.poll() is not None:
            raise Missing("the program ended with %s: %s" % (self.process.returncode, self.said()))
        try:
            for name, _ in self.call("org.a11y.atspi.Registry", ROOT, "Accessible", "GetChildren"):
                pid = self.desk.bus.call_sync("org.freedesktop.DBus", "/", "org.freedesktop.DBus",
                                              "GetConnectionUnixProcessID", GLib.Variant("(s)", (name,)), None, 0,
                                              2000, None).unpack()[0]
                if pid == self.process.pid:
                    self.name = name
                    return bool(self.root.children)
        except GLib.Error:
            pass
        return False

    def call(self, name, path, interface, method, arguments=None):
        answer = self.desk.bus.call_sync(name, path, "org.a11y.atspi." + interface, method, arguments, None, 0, 5000,
                                         None).unpack()
        return answer[0] if len(answer) == 1 else answer

    @property
    def root(self):
        return Item(self, ROOT)

    def all(self, role, name=None, below=None, rows=False):
        """Items of a role (None: any) that are on screen now, in order; `name` is the whole name, or a compiled pattern found
        in it. The rows of tables, a few hundred widgets each, are entered only with `rows`."""
        found, waiting = [], [below] if below else self.root.children
        while waiting:
            item = waiting.pop()
            try:
                if not item.mapped:
                    continue
                own = item.role
                if role in (None, own) and item.is_called(name):
                    found.append(item)
                if rows or own != "list" or item.name != "GtkColumnListView":
                    waiting += reversed(item.children)
            except GLib.Error:
                continue  # it went away while we looked
        return found

    def one(self, role, name=None, below=None, rows=False, seconds=10):
        return until(lambda: self.all(role, name, below, rows), seconds,
                     "%s %r" % (role, getattr(name, "pattern", name)))[0]

    @property
    def window(self):
        return until(lambda: [item for item in self.root.children if item.role == "frame"], 10, "a window")[0]

    def activate(self, action, parameter=None, window=None):
        """An action of the application or a window through its own D-Bus interface; takes parameters."""
        path = "/org/wattberth/Wattberth" + ("/window/%d" % window if window else "")
        self.desk.session.call_sync("org.wattberth.Wattberth", path, "org.gtk.Actions", "Activate",
                                    GLib.Variant("(sava{sv})", (action, [parameter] if parameter else [], {})), None,
                                    0, 20000, None)

    def warnings(self):
        """What the program complained about, less what GTK 4.8 itself says now and then."""
        own = re.compile(r"(WARNING|CRITICAL|ERROR) \*\*|runtime error:|Sanitizer")
        gtk = re.compile(r"Broken accounting of active state|Unable to acquire session bus|without a current alloc"
                         r"|Failed to set fd limit|cross-namespace EXTERNAL")
        return [line for line in self.said().splitlines() if own.search(line) and not gtk.search(line)]

    def end(self, seconds=15):
        """Closes the window by its action; the exit status."""
        try:
            self.window.act("window.close")
        except GLib.Error:
            pass  # gone before it could answer
        return self.process.wait(seconds)


class Item:
    """One accessible object, asked anew each time."""

    def __init__(self, program, path):
        self.program = program
        self.path = path

    def call(self, interface, method, kinds=None, *values):
        return self.program.call(self.program.name, self.path, interface, method,
                                 GLib.Variant(kinds, values) if kinds else None)

    def get(self, interface, name):
        return self.program.desk.bus.call_sync(
            self.program.name, self.path, "org.freedesktop.DBus.Properties", "Get",
            GLib.Variant("(ss)", ("org.a11y.atspi." + interface, name)), None, 0, 5000, None).unpack()[0]

    role = property(lambda self: ROLES.get(self.call("Accessible", "GetRole")))
    children = property(lambda self: [Item(self.program, path) for _, path in self.call("Accessible", "GetChildren")])
    parent = property(lambda self: Item(self.program, self.get("Accessible", "Parent")[1]))
    description = property(lambda self: self.get("Accessible", "Description"))

    @property
    def name(self):
        """GTK 4.8 gives the name of a button with a mnemonic twice, once with the underscore."""
        name = (self.get("Accessible", "Name") or "").replace("_", "")
        middle = len(name) // 2
        doubled = len(name) % 2 == 1 and name[middle:middle + 1] == " " and name[:middle] == name[middle + 1:]
        return name[:middle] if doubled else name

    def is_called(self, name):
        if name is None:
            return True
        return bool(name.search(self.name)) if hasattr(name, "search") else self.name == name

    @property
    def text(self):
        try:
            return self.call("Text", "GetText", "(ii)", 0, self.get("Text", "CharacterCount"))
        except GLib.Error:
            return self.name

    @property
    def box(self):
        return self.call("Component", "GetExtents", "(u)", IN_WINDOW)

    @property
    def mapped(self):
        """GTK 4.8 leaves SHOWING unset; but an unmapped widget does not contain its own middle. The pages of a
        stack are objects without a place of their own."""
        try:
            x, y, width, height = self.box
        except GLib.Error:
            return True
        return bool(width > 0 and height > 0 and self.call("Component", "Contains", "(iiu)", x + width // 2,
                                                           y + height // 2, IN_WINDOW))

    @property
    def checked(self):
        low, high = self.call("Accessible", "GetState")
        return bool((low | high << 32) >> int(Atspi.StateType.CHECKED) & 1)

    def act(self, action=None):
        count = self.get("Action", "NActions")
        names = [self.call("Action", "GetName", "(i)", i) for i in range(count)]
        if not names or (action and action not in names):
            raise Missing("%s %r has no action %r, only %r" % (self.role, self.name, action, names))
        self.call("Action", "DoAction", "(i)", names.index(action) if action else 0)

    def press(self):
        """A real click in its middle; the window stands undecorated at 0, 0."""
        x, y, width, height = (value * self.program.desk.scale for value in self.box)
        left, top = self.program_origin()
        self.program.desk.x("mousemove", left + x + width // 2, top + y + height // 2, "sleep", 0.05, "click", 1)

    def program_origin(self):
        """Where the content of the program's window begins on the screen; its tips and menus are windows too, but smaller."""
        found = []
        for window in self.program.desk.x("search", "--onlyvisible", "--pid", self.program.process.pid).split():
            told = subprocess.run(["xwininfo", "-id", window], env=self.program.desk.env, capture_output=True, text=True).stdout
            places = [re.search(key + r": +(-?\d+)", told) for key in
                      ("Absolute upper-left X", "Absolute upper-left Y", "Width", "Height")]
            if all(places):
                found.append([int(place.group(1)) for place in places])
        left, top, width, height = max(found, key=lambda place: place[2] * place[3])
        frame = self.program.window.box
        scale = self.program.desk.scale
        return left + (width - frame[2] * scale) // 2, top + (height - frame[3] * scale) // 2

    def enter(self, text):
        """Clicks into it, replaces its text and confirms."""
        self.press()
        self.program.desk.keys("ctrl+a")
        self.program.desk.write(text)
        self.program.desk.keys("Return")

    def rows(self, most=30):
        """Texts of the first rows of a table, cell by cell."""
        body = next((child for child in self.children if child.role == "list"), None) or self.children[-1]
        return [[" ".join(label.text for label in self.program.all("label", below=cell)) for cell in row.children]
                for row in body.children[:most]]
