package org.yardfall.sheet;

import java.awt.Font;
import java.awt.FontFormatException;
import java.awt.font.FontRenderContext;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.yardfall.layer.CleanText;

/**
 * The one font of every drawing: Liberation Sans (SIL Open Font License), as PDFBox carries it. So
 * a drawing looks alike on every machine, whatever fonts that has.
 */
final class SheetFont {

  private static final String RESOURCE =
      "/org/apache/pdfbox/resources/ttf/LiberationSans-Regular.ttf";

  private static final FontRenderContext CONTEXT = new FontRenderContext(null, true, true);

  private static final double PRECISE = 1000;

  private static final Font BASE = load();

  private static final Map<Integer, Double> ADVANCES = new ConcurrentHashMap<>();

  private SheetFont() {}

  /** The font in a size in points. */
  static Font of(double points) {
    return BASE.deriveFont((float) points);
  }

  /** The font's file. */
  static InputStream file() {
    return PDDocument.class.getResourceAsStream(RESOURCE);
  }

  /** Width of a line of text in points, the same for every drawing surface. */
  static double width(String text, double points) {
    return text.codePoints().mapToDouble(SheetFont::advance).sum() * points;
  }

  /** Advance of a character in a font of one point. */
  private static double advance(int c) {
    return ADVANCES.computeIfAbsent(
        c,
        each ->
            of(PRECISE).getStringBounds(Character.toString(each), CONTEXT).getWidth() / PRECISE);
  }

  /**
   * Text as it can be drawn: without marks that steer its direction, with a question mark for what
   * the font does not hold, cut to a greatest number of characters.
   */
  static String drawable(String text, int most) {
    StringBuilder clean = new StringBuilder();
    CleanText.of(text)
        .codePoints()
        .filter(c -> Character.getType(c) != Character.FORMAT)
        .limit(most + 1L)
        .forEach(c -> clean.appendCodePoint(drawable(c) ? c : '?'));
    if (clean.codePointCount(0, clean.length()) <= most) {
      return clean.toString();
    }
    return clean.substring(0, clean.offsetByCodePoints(0, most - 1)) + "…";
  }

  /** Scripts that are written from right to left would need shaping, which no surface here does. */
  private static boolean drawable(int c) {
    byte direction = Character.getDirectionality(c);
    return BASE.canDisplay(c)
        && direction != Character.DIRECTIONALITY_RIGHT_TO_LEFT
        && direction != Character.DIRECTIONALITY_RIGHT_TO_LEFT_ARABIC;
  }

  private static Font load() {
    try (InputStream in = file()) {
      return Font.createFont(Font.TRUETYPE_FONT, in);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } catch (FontFormatException e) {
      throw new IllegalStateException("PDFBox carries a font that Java cannot read", e);
    }
  }
}
