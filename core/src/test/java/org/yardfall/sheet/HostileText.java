package org.yardfall.sheet;

/** An id that does its worst: markup, quotes, a formula, marks of direction, great length. */
final class HostileText {

  static final String ID =
      "=cmd|' /C x'!A1</script><script>document.title='ran'</script>\"'&<img src=x onerror=alert(1)>"
          + "]]>\u202Ertl\u202C\u2028\u0000\uD800 \u6c34\u8def \u05d0\u05d1 "
          + "x".repeat(10_000);

  private HostileText() {}
}
