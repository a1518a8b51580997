package org.yardfall.layer;

/** Text as nobody should write it into a parcel's id. */
final class HostileText {

  private HostileText() {}

  /** Markup, quotes, a formula, a right-to-left mark, two scripts, and 10,000 characters more. */
  static final String ID =
      "=1+1<script>alert('x')</script>\"; DROP TABLE lot; -- ]]>&amp;\u202E\u6F22\u00E9"
          + "\u00FC".repeat(10_000);
}
