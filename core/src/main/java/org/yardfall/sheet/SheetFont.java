package org.yardfall.sheet;

import java.awt.Font;
import java.awt.FontFormatException;
import java.awt.Graphics2D;
import java.awt.font.FontRenderContext;
import java.awt.font.TextAttribute;
import java.awt.font.TextLayout;
import java.awt.geom.AffineTransform;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.text.AttributedString;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.apache.fontbox.ttf.GlyphSubstitutionTable;
import org.apache.fontbox.ttf.TTFParser;
import org.apache.fontbox.ttf.TrueTypeFont;
import org.apache.pdfbox.io.RandomAccessReadBuffer;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.yardfall.layer.CleanText;

/**
 * The font of every drawing: Liberation Sans (SIL Open Font License), as PDFBox carries it. So a
 * drawing looks alike on every machine, whatever fonts that has.
 *
 * <p>Names in scripts that it does not hold, or that run from right to left, are shaped with the
 * machine's own fonts and drawn as outlines, alike on every surface. A character that none of them
 * holds becomes {@value #MISSING}.
 */
final class SheetFont {

  private static final String RESOURCE =
      "/org/apache/pdfbox/resources/ttf/LiberationSans-Regular.ttf";

  private static final FontRenderContext CONTEXT = new FontRenderContext(null, true, true);

  private static final double PRECISE = 1000;

  /** Stands for a character that no font here holds. */
  static final String MISSING = "□";

  /** Loaded when it is first asked for: Java copies a font to a file, and a disk may be full. */
  private static volatile Font base;

  private static final Map<Integer, Double> ADVANCES = new ConcurrentHashMap<>();

  private SheetFont() {}

  /** The font in a size in points. */
  static Font of(double points) {
    return base().deriveFont((float) points);
  }

  /**
   * The font to be embedded in a PDF, without its table of ligatures: the other surfaces draw none,
   * and to look for them takes longer than all the rest of a sheet.
   */
  static TrueTypeFont forPdf() throws IOException {
    try (InputStream in = file()) {
      TrueTypeFont font = new TTFParser().parse(new RandomAccessReadBuffer(in));
      font.getTableMap().remove(GlyphSubstitutionTable.TAG);
      return font;
    }
  }

  private static InputStream file() {
    return PDDocument.class.getResourceAsStream(RESOURCE);
  }

  /** Width of a line of text in points, the same for every drawing surface. */
  static double width(String text, double points) {
    return needsShaping(text)
        ? layout(text, PRECISE).getAdvance() / PRECISE * points
        : plainWidth(text, points);
  }

  /** Draws a line of text in the surface's colour from the left end of its base line. */
  static void draw(Graphics2D g, String text, double points, double x, double y) {
    if (needsShaping(text)) {
      g.fill(layout(text, points).getOutline(AffineTransform.getTranslateInstance(x, y)));
    } else {
      g.setFont(of(points));
      g.drawString(text, (float) x, (float) y);
    }
  }

  private static boolean needsShaping(String text) {
    return text.codePoints().anyMatch(c -> !isBase(c));
  }

  /** A line whose characters come each from the first font that holds it. */
  private static TextLayout layout(String text, double points) {
    AttributedString attributed = new AttributedString(text);
    int at = 0;
    while (at < text.length()) {
      int c = text.codePointAt(at);
      int end = at + Character.charCount(c);
      Font font = isBase(c) || !Fallback.holds(c) ? base() : Fallback.FONT;
      attributed.addAttribute(TextAttribute.FONT, font.deriveFont((float) points), at, end);
      at = end;
    }
    return new TextLayout(attributed.getIterator(), CONTEXT);
  }

  private static double plainWidth(String text, double points) {
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
   * Text as it can be drawn: without marks that steer its direction, with {@value #MISSING} for
   * what no font holds, cut to a greatest number of characters.
   */
  static String drawable(String text, int most) {
    StringBuilder clean = new StringBuilder();
    CleanText.of(text)
        .codePoints()
        .filter(c -> Character.getType(c) != Character.FORMAT)
        .limit(most + 1L)
        .forEach(c -> clean.append(isHeld(c) ? Character.toString(c) : MISSING));
    if (clean.codePointCount(0, clean.length()) <= most) {
      return clean.toString();
    }
    return clean.substring(0, clean.offsetByCodePoints(0, most - 1)) + "…";
  }

  private static boolean isHeld(int c) {
    return base().canDisplay(c) || Fallback.holds(c);
  }

  /** Whether the font holds a character; what runs from right to left must be shaped. */
  private static boolean isBase(int c) {
    byte direction = Character.getDirectionality(c);
    return base().canDisplay(c)
        && direction != Character.DIRECTIONALITY_RIGHT_TO_LEFT
        && direction != Character.DIRECTIONALITY_RIGHT_TO_LEFT_ARABIC;
  }

  /** The machine's own fonts, looked for only where they are needed. */
  private static final class Fallback {

    static final Font FONT = new Font(Font.SANS_SERIF, Font.PLAIN, 1);

    static boolean holds(int c) {
      try {
        return FONT.canDisplay(c);
      } catch (RuntimeException e) {
        return false; // Java finds no fonts on this machine
      }
    }
  }

  /**
   * The font in one point.
   *
   * @throws UncheckedIOException if Java cannot put its copy of the font anywhere
   */
  private static Font base() {
    Font loaded = base;
    if (loaded == null) {
      synchronized (SheetFont.class) {
        loaded = base;
        if (loaded == null) {
          loaded = load();
          base = loaded;
        }
      }
    }
    return loaded;
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
