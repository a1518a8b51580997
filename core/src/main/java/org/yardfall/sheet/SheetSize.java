package org.yardfall.sheet;

import java.util.Arrays;
import java.util.Locale;
import java.util.stream.Collectors;
import org.yardfall.site.BadInputException;

/** Paper that plans are printed on, laid across (ANSI/ASME Y14.1, ISO 216). */
public enum SheetSize {
  /** 11 in by 8.5 in. */
  LETTER(792, 612),
  /** 17 in by 11 in. */
  TABLOID(1224, 792),
  /** 297 mm by 210 mm. */
  A4(297 * 72 / 25.4, 210 * 72 / 25.4),
  /** 420 mm by 297 mm. */
  A3(420 * 72 / 25.4, 297 * 72 / 25.4);

  private final double width;
  private final double height;

  SheetSize(double width, double height) {
    this.width = width;
    this.height = height;
  }

  /** Width in points of 1/72 in. */
  public double widthPoints() {
    return width;
  }

  /** Height in points of 1/72 in. */
  public double heightPoints() {
    return height;
  }

  /** The word used on the command line: lower case. */
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }

  /**
   * The size of the given word.
   *
   * @throws BadInputException if there is none
   */
  public static SheetSize named(String word) {
    return Arrays.stream(values())
        .filter(size -> size.word().equals(word.toLowerCase(Locale.ROOT)))
        .findFirst()
        .orElseThrow(
            () ->
                new BadInputException(
                    "--sheet",
                    "'" + word + "' is unknown",
                    "give "
                        + Arrays.stream(values())
                            .map(SheetSize::word)
                            .collect(Collectors.joining(", "))));
  }
}
