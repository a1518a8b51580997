package org.yardfall.sheet;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.geom.Point2D;
import java.awt.geom.Rectangle2D;
import java.awt.image.BufferedImage;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.contentstream.PDFGraphicsStreamEngine;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.graphics.image.PDImage;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.yardfall.layer.Result;
import org.yardfall.layer.ResultFixture;
import org.yardfall.route.Route;
import org.yardfall.site.UnitSystem;

/** The sheet read back by PDFBox: lengths on paper, words, bytes. */
class PlanSheetTest {

  private static final double MM = 72 / 25.4;

  @TempDir Path folder;

  /** 1:200 on A3 and 1 in = 20 ft on Tabloid, from the paper alone. */
  @Test
  void theDrainIsAsLongOnPaperAsItsScaleSays() throws Exception {
    checkLength(SheetSize.A3, UnitSystem.METRIC, "Scale 1:200", 200);
    checkLength(SheetSize.TABLOID, UnitSystem.US, "Scale 1 in = 20 ft", 240);
    checkLength(SheetSize.LETTER, UnitSystem.US, "Scale 1 in = 30 ft", 360);
  }

  /** The lot's middle lies in the middle of the plan; the bends follow from that and the scale. */
  @Test
  void theBendsOfTheDrainLieWithinATenthOfAMillimetre() throws Exception {
    List<Point2D> drain = drain(write(ResultFixture.metric(), UnitSystem.METRIC, SheetSize.A3));
    double perM = 1000 * MM / 200;
    double middleX = 24 + (SheetSize.A3.widthPoints() - 48 - PlanStrip.WIDTH) / 2;
    double middleY = SheetSize.A3.heightPoints() / 2;
    double[][] bends = {{5, 45}, {30, 45}, {55, 45}, {55, 10.5}, {55, 2}};
    assertEquals(bends.length, drain.size());
    for (int i = 0; i < bends.length; i++) {
      assertEquals(middleX + (bends[i][0] - 30) * perM, drain.get(i).getX(), 0.1 * MM);
      assertEquals(middleY + (bends[i][1] - 25) * perM, drain.get(i).getY(), 0.1 * MM);
    }
  }

  @Test
  void theSheetSaysWhatAReviewerLooksFor() throws Exception {
    String text = text(write(ResultFixture.metric(), UnitSystem.US, SheetSize.LETTER));
    for (String word :
        new String[] {
          "draft for review, not for construction",
          "Boundary: surveyed by",
          "Utilities: located by",
          "Benchmark",
          "Stamp",
          "existing contours",
          "CB1, catch basin",
          "inv 793.64",
          "1+64.0",
          "I1 in from 6",
          "vertical exaggeration",
          "Pipe",
          "Quantities",
          "stone",
          "Water across the property line",
          "Cautions",
          "Have buried utilities located",
          "Vertical accuracy",
          "1'-7 5/8\""
        }) {
      assertTrue(text.contains(word), word);
    }
  }

  @Test
  void theSameResultGivesTheSameBytes() throws Exception {
    Path first = write(ResultFixture.metric(), UnitSystem.METRIC, SheetSize.A4);
    byte[] bytes = Files.readAllBytes(first);
    Path second = write(ResultFixture.metric(), UnitSystem.METRIC, SheetSize.A4);
    assertArrayEquals(bytes, Files.readAllBytes(second));
  }

  @Test
  void textFromTheDataHarmsNothing() throws Exception {
    for (SheetSize size : SheetSize.values()) {
      Path file = write(ResultFixture.withIds(HostileText.ID), UnitSystem.US, size);
      assertFalse(text(file).contains("xxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxx"));
    }
  }

  @Test
  void aSiteWithoutLotOrDrainHasASheetToo() throws Exception {
    String text = text(write(ResultFixture.empty(), UnitSystem.METRIC, SheetSize.A4));
    assertTrue(text.contains("No drain can be proposed"));
  }

  @Test
  void everyFontIsEmbedded() throws Exception {
    try (PDDocument document =
        Loader.loadPDF(write(ResultFixture.metric(), UnitSystem.US, SheetSize.A3).toFile())) {
      int fonts = 0;
      for (PDPage page : document.getPages()) {
        for (COSName form : page.getResources().getXObjectNames()) {
          var resources =
              ((org.apache.pdfbox.pdmodel.graphics.form.PDFormXObject)
                      page.getResources().getXObject(form))
                  .getResources();
          for (COSName name : resources.getFontNames()) {
            assertTrue(resources.getFont(name).isEmbedded());
            fonts++;
          }
        }
      }
      assertTrue(fonts > 0);
    }
  }

  @Test
  void labelsDoNotCollide() {
    Result result = ResultFixture.metric();
    BufferedImage image = new BufferedImage(600, 500, BufferedImage.TYPE_INT_RGB);
    LabelPlacer labels =
        new LabelPlacer(image.createGraphics(), new Rectangle2D.Double(0, 0, 600, 500));
    for (int i = 0; i < 60; i++) {
      labels.beside(
          300 + i % 7 * 9, 250 + i / 7 * 6, 7, Ink.BLACK, "label " + i, result.site().name());
    }
    List<Rectangle2D> placed = labels.labels();
    assertTrue(placed.size() > 20);
    for (Rectangle2D a : placed) {
      assertTrue(new Rectangle2D.Double(0, 0, 600, 500).contains(a));
      assertEquals(1, placed.stream().filter(a::intersects).count());
    }
  }

  /**
   * A bend of the drain at (55, 45) of the lot lies there on the paper too, measured from the lot's
   * corners, within 0.1 mm.
   */
  @Test
  void drainAndParcelLieWhereTheyBelong() throws Exception {
    Path file = write(ResultFixture.metric(), UnitSystem.METRIC, SheetSize.A3);
    assertTrue(text(file).contains("1:200"));
    try (PDDocument document = Loader.loadPDF(file.toFile())) {
      Strokes strokes = new Strokes(document.getPage(0));
      strokes.processPage(document.getPage(0));
      List<Point2D> lot = strokes.of(1.6, 4);
      List<Point2D> drain = strokes.of(3.2, 5);
      double mmPerM = 1000 / 200.0;
      for (Point2D corner : lot) {
        Point2D bend = drain.get(2);
        double east = 55 - (corner.getX() < bend.getX() - 1 ? 0 : ResultFixture.WIDTH_M);
        double north = 45 - (corner.getY() < bend.getY() - 1 ? 0 : ResultFixture.HEIGHT_M);
        assertEquals(east * mmPerM, (bend.getX() - corner.getX()) / 72 * 25.4, 0.1);
        assertEquals(north * mmPerM, (bend.getY() - corner.getY()) / 72 * 25.4, 0.1);
      }
    }
  }

  private void checkLength(SheetSize size, UnitSystem units, String stated, double ratio)
      throws Exception {
    Result result = ResultFixture.metric();
    Path file = write(result, units, size);
    assertTrue(text(file).contains(stated), stated);
    Route route = result.routes().get(0);
    List<Point2D> drain = drain(file);
    double points = 0;
    for (int i = 1; i < drain.size(); i++) {
      points += drain.get(i).distance(drain.get(i - 1));
    }
    double expected = route.main().lengthM();
    assertEquals(expected, points / 72 * 0.0254 * ratio, 0.002 * expected);
  }

  private Path write(Result result, UnitSystem units, SheetSize size) throws Exception {
    Path file = folder.resolve("plan-" + size.word() + ".pdf");
    PlanSheet.write(result, units, size, file);
    return file;
  }

  private static String text(Path file) throws Exception {
    try (PDDocument document = Loader.loadPDF(file.toFile())) {
      return new PDFTextStripper().getText(document);
    }
  }

  /** The drain's main line on the first page. */
  private static List<Point2D> drain(Path file) throws Exception {
    try (PDDocument document = Loader.loadPDF(file.toFile())) {
      Strokes strokes = new Strokes(document.getPage(0));
      strokes.processPage(document.getPage(0));
      return strokes.of(3.2, 5);
    }
  }

  /** Collects what is stroked, in points from the lower left. */
  private static final class Strokes extends PDFGraphicsStreamEngine {

    private record Stroke(double width, List<Point2D> line) {}

    private final List<Stroke> found = new ArrayList<>();
    private List<Point2D> path = new ArrayList<>();

    Strokes(PDPage page) {
      super(page);
    }

    /** The first line of a width in points that has so many points. */
    List<Point2D> of(double width, int points) {
      return found.stream()
          .filter(s -> Math.abs(s.width() - width) < 1e-3 && s.line().size() == points)
          .map(Stroke::line)
          .findFirst()
          .orElseThrow();
    }

    @Override
    public void appendRectangle(Point2D a, Point2D b, Point2D c, Point2D d) {}

    @Override
    public void drawImage(PDImage image) {}

    @Override
    public void clip(int windingRule) {}

    @Override
    public void moveTo(float x, float y) {
      path = new ArrayList<>();
      path.add(new Point2D.Double(x, y));
    }

    @Override
    public void lineTo(float x, float y) {
      path.add(new Point2D.Double(x, y));
    }

    @Override
    public void curveTo(float x1, float y1, float x2, float y2, float x3, float y3) {
      lineTo(x3, y3);
    }

    @Override
    public Point2D getCurrentPoint() {
      return path.get(path.size() - 1);
    }

    @Override
    public void closePath() {}

    @Override
    public void endPath() {}

    @Override
    public void strokePath() {
      found.add(new Stroke(getGraphicsState().getLineWidth(), path));
    }

    @Override
    public void fillPath(int windingRule) {}

    @Override
    public void fillAndStrokePath(int windingRule) {}

    @Override
    public void shadingFill(COSName name) {}
  }
}
