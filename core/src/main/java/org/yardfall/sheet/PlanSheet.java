package org.yardfall.sheet;

import de.rototor.pdfbox.graphics2d.PdfBoxGraphics2D;
import de.rototor.pdfbox.graphics2d.PdfBoxGraphics2DFontTextDrawer;
import java.awt.Graphics2D;
import java.awt.Image;
import java.awt.geom.Rectangle2D;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.Consumer;
import org.apache.fontbox.ttf.TrueTypeFont;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.PDPageContentStream;
import org.apache.pdfbox.pdmodel.common.PDRectangle;
import org.apache.pdfbox.pdmodel.font.PDFont;
import org.apache.pdfbox.pdmodel.font.PDType0Font;
import org.apache.pdfbox.pdmodel.graphics.image.JPEGFactory;
import org.apache.pdfbox.pdmodel.graphics.image.PDImageXObject;
import org.locationtech.jts.geom.Envelope;
import org.yardfall.layer.Result;
import org.yardfall.route.Route;
import org.yardfall.site.UnitSystem;

/**
 * The plan sheet as PDF: first the plan at a true scale, then profiles, tables and notes. Lines and
 * text are vectors, the font is embedded. The same result gives the same bytes.
 */
public final class PlanSheet {

  private static final double MARGIN = 24;
  private static final double FOOT = 14;
  private static final double EDGE_M = 2;
  private static final double PROFILE_HEIGHT = 150;
  private static final long DOCUMENT_ID = 1;
  private static final int PHOTO_PIXELS = 2000;
  private static final float PHOTO_QUALITY = 0.8f;

  private final Result result;
  private final UnitSystem units;
  private final SheetSize size;
  private final Route route;
  private final Rectangle2D page;
  private final PDDocument document;
  private final PDFont font;

  private PlanSheet(
      Result result, UnitSystem units, SheetSize size, PDDocument document, TrueTypeFont type)
      throws IOException {
    this.result = result;
    this.units = units;
    this.size = size;
    this.document = document;
    this.route = result.routes().isEmpty() ? null : result.routes().get(0);
    this.page =
        new Rectangle2D.Double(
            MARGIN, MARGIN, size.widthPoints() - 2 * MARGIN, size.heightPoints() - 2 * MARGIN);
    font = PDType0Font.load(document, type, true);
  }

  /**
   * Writes the sheet of the first route, or of the surface water where there is none.
   *
   * @param result what to draw
   * @param units the reader's units, which also choose the scales
   * @param size the paper
   * @param file where to; an existing file is replaced
   * @throws IOException if the file cannot be written
   */
  public static void write(Result result, UnitSystem units, SheetSize size, Path file)
      throws IOException {
    try (PDDocument document = new PDDocument();
        TrueTypeFont type = SheetFont.forPdf()) {
      new PlanSheet(result, units, size, document, type).draw();
      document.getDocumentInformation().setTitle(SheetFont.drawable(result.site().name(), 80));
      document.getDocumentInformation().setSubject(PlanNotes.DRAFT);
      document.setDocumentId(DOCUMENT_ID); // else the identifier would be made of the time
      document.save(file.toFile());
    }
  }

  private void draw() throws IOException {
    SheetFlow flow =
        new SheetFlow(
            new Rectangle2D.Double(
                page.getX(), page.getY(), page.getWidth(), page.getHeight() - FOOT));
    profiles(flow);
    PlanTables.add(result, route, units, flow);
    int sheets = 1 + flow.pages();
    onPage(g -> plan(g, "1 of " + sheets));
    for (int i = 0; i < flow.pages(); i++) {
      int sheet = i;
      onPage(
          g -> {
            flow.draw(sheet, g);
            foot(g, (sheet + 2) + " of " + sheets);
          });
    }
  }

  /** The ground that the plan must show: where everything fits at a scale of the list. */
  private void plan(Graphics2D g, String sheet) {
    Rectangle2D frame =
        new Rectangle2D.Double(
            page.getX(), page.getY(), page.getWidth() - PlanStrip.WIDTH, page.getHeight());
    Rectangle2D strip =
        new Rectangle2D.Double(frame.getMaxX(), page.getY(), PlanStrip.WIDTH, page.getHeight());
    Envelope ground = SiteExtent.of(result);
    ground.expandBy(EDGE_M);
    SheetScale scale =
        SheetScale.fitting(
            ground.getWidth(), ground.getHeight(), frame.getWidth(), frame.getHeight(), units);
    MapView view = MapView.centred(ground, scale.pointsPerM(), frame);
    DrawnContours contours = DrawnContours.of(result.terrain().ground(), view.ground(), units);
    PhotoWash.paint(g, view, result, PHOTO_PIXELS);
    MapPainter.paint(g, view, result, units, contours, route);
    new PlanStrip(g, strip, result, units)
        .draw(
            scale,
            view.ground(),
            size.name().charAt(0) + size.name().substring(1).toLowerCase(Locale.ROOT),
            contours.stepM(),
            route,
            sheet);
    g.setColor(Ink.BLACK);
    g.setStroke(Ink.pen(1));
    g.draw(frame);
    g.draw(page);
  }

  private void profiles(SheetFlow flow) {
    if (route == null) {
      return;
    }
    List<ProfileLine> lines = ProfileLine.of(result, route);
    double longest = lines.stream().mapToDouble(p -> p.line().lengthM()).max().orElseThrow();
    double room = page.getWidth() - ProfilePanel.LEFT - ProfilePanel.RIGHT;
    SheetScale scale = SheetScale.fitting(longest, 0, room, 1, units);
    List<ProfilePanel> panels = new ArrayList<>();
    for (ProfileLine line : lines) {
      panels.add(
          new ProfilePanel(
              line,
              units,
              Ink.of(route.kind()),
              scale.pointsPerM(),
              PROFILE_HEIGHT,
              "horizontal " + scale.words() + ", "));
    }
    panels.forEach(panel -> flow.across(panel.height(), panel::draw));
  }

  private void foot(Graphics2D g, String sheet) {
    String text =
        (result.site().name().isEmpty() ? "" : SheetFont.drawable(result.site().name(), 60) + ", ")
            + PlanStrip.subject(result, route)
            + "   ·   sheet "
            + sheet
            + "   ·   "
            + PlanNotes.DRAFT;
    SheetText.draw(g, List.of(text), 7, Ink.DIM, page.getX(), page.getMaxY() - 8);
  }

  private void onPage(Consumer<Graphics2D> drawing) throws IOException {
    float width = (float) size.widthPoints();
    float height = (float) size.heightPoints();
    PDPage sheet = new PDPage(new PDRectangle(width, height));
    document.addPage(sheet);
    onPage(document, sheet, font, drawing);
  }

  /** The only picture on a sheet is a photo, which is of a size to send as JPEG alone. */
  private static PDImageXObject photo(PDDocument to, Image image) {
    try {
      return JPEGFactory.createFromImage(to, (BufferedImage) image, PHOTO_QUALITY);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  static void onPage(PDDocument document, PDPage sheet, PDFont font, Consumer<Graphics2D> drawing)
      throws IOException {
    PDRectangle box = sheet.getMediaBox();
    PdfBoxGraphics2D g = new PdfBoxGraphics2D(document, box.getWidth(), box.getHeight());
    try (PdfBoxGraphics2DFontTextDrawer texts = new PdfBoxGraphics2DFontTextDrawer()) {
      texts.registerFont(SheetFont.of(1).getName(), font);
      g.setFontTextDrawer(texts);
      g.setImageEncoder((to, stream, image, how) -> photo(to, image));
      ProfileChart.smooth(g);
      drawing.accept(g);
      g.dispose();
    }
    try (PDPageContentStream content = new PDPageContentStream(document, sheet)) {
      content.drawForm(g.getXFormObject());
    }
  }
}
