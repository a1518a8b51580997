package org.yardfall.sheet;

import java.awt.Graphics2D;
import java.awt.geom.CubicCurve2D;
import java.awt.geom.Rectangle2D;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.io.Writer;
import org.apache.batik.svggen.SVGGraphics2D;
import org.apache.fontbox.ttf.TrueTypeFont;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.font.PDType0Font;
import org.jfree.chart.axis.NumberAxis;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.renderer.xy.XYLineAndShapeRenderer;
import org.jfree.data.xy.XYSeries;
import org.jfree.data.xy.XYSeriesCollection;

/**
 * Draws next to nothing on every kind of surface and throws it away, so that fonts and drawing
 * libraries are loaded by the time they are needed: a program may do this beside its other work.
 */
public final class Rehearsal {

  private static final int SIDE = 120;

  /** So often is drawn that what the pages do all the time is compiled by then. */
  private static final int TIMES = 12;

  private Rehearsal() {}

  /**
   * Draws, and throws it away.
   *
   * @throws IOException if a library's own file cannot be read
   */
  public static void draw() throws IOException {
    BufferedImage image = new BufferedImage(4 * SIDE, 4 * SIDE, BufferedImage.TYPE_INT_RGB);
    Graphics2D g = image.createGraphics();
    ProfileChart.smooth(g);
    for (int i = 0; i < TIMES; i++) {
      g.translate(SIDE / 6, SIDE / 6);
      draw(g);
    }
    g.dispose();
    Pictures.png(image);
    SVGGraphics2D lines = new SVGGraphics2D(ProfileChart.context(), false);
    ProfileChart.smooth(lines);
    draw(lines);
    lines.stream(Writer.nullWriter(), true);
    try (PDDocument document = new PDDocument();
        TrueTypeFont type = SheetFont.forPdf()) {
      PDPage page = new PDPage();
      document.addPage(page);
      PlanSheet.onPage(document, page, PDType0Font.load(document, type, true), Rehearsal::draw);
    }
  }

  private static void draw(Graphics2D g) {
    g.setColor(Ink.DIM);
    g.setStroke(Ink.pen(1));
    g.draw(new CubicCurve2D.Double(0, 0, SIDE, 0, 0, SIDE, SIDE, SIDE));
    SheetFont.draw(g, "0.00 m", 8, 2, SheetFont.width("0.00 m", 8));
    XYSeries series = new XYSeries("ground");
    series.add(0, 0);
    series.add(1, 1);
    new XYPlot(
            new XYSeriesCollection(series),
            new NumberAxis("station"),
            new NumberAxis("elevation"),
            new XYLineAndShapeRenderer(true, false))
        .draw(g, new Rectangle2D.Double(0, 0, SIDE, SIDE), null, null, null);
  }
}
