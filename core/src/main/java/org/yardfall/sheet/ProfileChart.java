package org.yardfall.sheet;

import java.awt.Dimension;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.geom.Rectangle2D;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.parsers.ParserConfigurationException;
import org.apache.batik.svggen.SVGGeneratorContext;
import org.apache.batik.svggen.SVGGraphics2D;
import org.apache.batik.svggen.SVGSyntax;
import org.w3c.dom.Document;
import org.yardfall.layer.Result;
import org.yardfall.route.Route;
import org.yardfall.site.UnitSystem;

/**
 * The profile of a route as a picture: its main line and, under it, its branches, all at one
 * horizontal scale. The same result gives the same bytes.
 */
public final class ProfileChart {

  private static final double WIDTH = 760;
  private static final double MARGIN = 14;
  private static final double FOOT = 16;
  private static final double PLOT_HEIGHT = 240;
  private static final double PIXELS_PER_POINT = 2;

  private final List<ProfilePanel> panels;
  private final String foot;

  private ProfileChart(Result result, String routeId, UnitSystem units) {
    Route route =
        result.routes().stream()
            .filter(each -> each.id().equals(routeId))
            .findFirst()
            .orElseThrow(() -> new IllegalArgumentException("no route " + routeId));
    List<ProfileLine> lines = ProfileLine.of(result, route);
    double longest = lines.stream().mapToDouble(p -> p.line().lengthM()).max().orElseThrow();
    double scale = (WIDTH - ProfilePanel.LEFT - ProfilePanel.RIGHT) / longest;
    panels =
        lines.stream()
            .map(
                line -> new ProfilePanel(line, units, Ink.of(route.kind()), scale, PLOT_HEIGHT, ""))
            .toList();
    foot = SheetFont.drawable(result.site().name(), 60) + " · " + PlanNotes.DRAFT;
  }

  /**
   * Writes the profile as SVG.
   *
   * @throws IllegalArgumentException if the result has no such route
   * @throws IOException if the file cannot be written
   */
  public static void svg(Result result, String routeId, UnitSystem units, Path file)
      throws IOException {
    ProfileChart chart = new ProfileChart(result, routeId, units);
    SVGGraphics2D g = new SVGGraphics2D(context(), false);
    g.setSVGCanvasSize(
        new Dimension((int) Math.ceil(chart.width()), (int) Math.ceil(chart.height())));
    smooth(g); // the axes put back the hints that they find, so there must be some
    chart.draw(g);
    try (Writer out = Files.newBufferedWriter(file, StandardCharsets.UTF_8)) {
      g.stream(out, true);
    }
  }

  static SVGGeneratorContext context() throws IOException {
    try {
      Document document =
          DocumentBuilderFactory.newDefaultInstance()
              .newDocumentBuilder()
              .getDOMImplementation()
              .createDocument(SVGSyntax.SVG_NAMESPACE_URI, SVGSyntax.SVG_SVG_TAG, null);
      SVGGeneratorContext context = SVGGeneratorContext.createDefault(document);
      context.setComment("");
      context.setPrecision(2);
      return context;
    } catch (ParserConfigurationException e) {
      throw new IOException(e);
    }
  }

  /**
   * Writes the profile as PNG, twice as fine as a screen.
   *
   * @throws IllegalArgumentException if the result has no such route
   * @throws IOException if the file cannot be written
   */
  public static void png(Result result, String routeId, UnitSystem units, Path file)
      throws IOException {
    ProfileChart chart = new ProfileChart(result, routeId, units);
    BufferedImage image =
        new BufferedImage(
            (int) Math.ceil(chart.width() * PIXELS_PER_POINT),
            (int) Math.ceil(chart.height() * PIXELS_PER_POINT),
            BufferedImage.TYPE_INT_RGB);
    Graphics2D g = image.createGraphics();
    smooth(g);
    g.scale(PIXELS_PER_POINT, PIXELS_PER_POINT);
    chart.draw(g);
    g.dispose();
    Pictures.writePng(image, file);
  }

  static void smooth(Graphics2D g) {
    g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
    g.setRenderingHint(
        RenderingHints.KEY_TEXT_ANTIALIASING, RenderingHints.VALUE_TEXT_ANTIALIAS_ON);
    g.setRenderingHint(
        RenderingHints.KEY_FRACTIONALMETRICS, RenderingHints.VALUE_FRACTIONALMETRICS_ON);
    g.setRenderingHint(RenderingHints.KEY_STROKE_CONTROL, RenderingHints.VALUE_STROKE_PURE);
  }

  private double width() {
    return WIDTH + 2 * MARGIN;
  }

  private double height() {
    return panels.stream().mapToDouble(ProfilePanel::height).sum() + 2 * MARGIN + FOOT;
  }

  private void draw(Graphics2D g) {
    g.setColor(Ink.PAPER);
    g.fill(new Rectangle2D.Double(0, 0, width() + 1, height() + 1));
    double y = MARGIN;
    for (ProfilePanel panel : panels) {
      panel.draw(g, MARGIN, y);
      y += panel.height();
    }
    g.setColor(Ink.DIM);
    SheetFont.draw(g, foot, 7, MARGIN, y + FOOT - 4);
  }
}
