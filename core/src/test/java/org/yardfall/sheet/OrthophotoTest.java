package org.yardfall.sheet;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.image.BufferedImage;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.rendering.PDFRenderer;
import org.geotools.api.parameter.GeneralParameterValue;
import org.geotools.coverage.grid.GridCoverageFactory;
import org.geotools.gce.geotiff.GeoTiffWriter;
import org.geotools.geometry.jts.ReferencedEnvelope;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.locationtech.jts.geom.Envelope;
import org.yardfall.layer.Result;
import org.yardfall.layer.ResultFixture;
import org.yardfall.site.BadInputException;
import org.yardfall.site.CrsLookup;
import org.yardfall.site.PlaneTransform;
import org.yardfall.site.UnitSystem;
import org.yardfall.site.WorkingCrs;

/** Photographs made for the test, with a red square whose place on the ground is known. */
class OrthophotoTest {

  private static final Envelope LOT = new Envelope(500000, 500060, 4983000, 4983050);
  private static final WorkingCrs PLANE = CrsLookup.of("EPSG:26915");
  private static final double FROM = 20;
  private static final double TO = 30;

  @TempDir Path folder;

  @Test
  void aPhotoInTheWorkingCrsLiesWhereItBelongs() throws Exception {
    checkSquare(CrsLookup.of("EPSG:26915"), 0.1);
  }

  /** The neighbouring zone's grid is turned against this one by some degrees. */
  @Test
  void aPhotoInAnotherCrsIsCarriedOver() throws Exception {
    checkSquare(CrsLookup.of("EPSG:26916"), 0.1);
  }

  /** On A3 at 1:200 the lot's middle lies in the middle of the plan; a metre is 5 mm. */
  @Test
  void theSheetLiesOnThePhoto() throws Exception {
    Path file = folder.resolve("plan.pdf");
    Result onPhoto = ResultFixture.onPhoto(photo(PLANE, 0.1));
    PlanSheet.write(onPhoto, UnitSystem.METRIC, SheetSize.A3, file);
    try (PDDocument document = Loader.loadPDF(file.toFile())) {
      BufferedImage page = new PDFRenderer(document).renderImage(0, 1);
      assertTrue(redness(page, 21, 24, 21, 24) > 20, "the red square");
      assertTrue(redness(page, 8, 12, 12, 16) < -20, "the green ground");
    }
  }

  /** How much redder than green a piece of the lot is on a page of a pixel a point, on the mean. */
  private static double redness(BufferedImage page, int west, int east, int south, int north) {
    double perM = 1000 * 72 / 25.4 / 200;
    double middleX = 24 + (SheetSize.A3.widthPoints() - 48 - PlanStrip.WIDTH) / 2;
    double middleY = SheetSize.A3.heightPoints() / 2;
    double sum = 0;
    int n = 0;
    for (double y = south; y < north; y += 0.1) {
      for (double x = west; x < east; x += 0.1) {
        int column = (int) (middleX + (x - 30) * perM);
        Color colour = new Color(page.getRGB(column, (int) (middleY - (y - 25) * perM)));
        sum += colour.getRed() - colour.getGreen();
        n++;
      }
    }
    return sum / n;
  }

  @Test
  void aPhotoOfElsewhereIsLeftOut() throws Exception {
    Path file = photo(CrsLookup.of("EPSG:26915"), 0.5);
    Envelope far = new Envelope(600000, 600050, 4983000, 4983050);
    assertEquals(Optional.empty(), Orthophoto.of(file, PLANE, far, 100));
  }

  @Test
  void aFileThatIsNoGeoTiffIsRefusedByName() throws Exception {
    Path file = folder.resolve("photo.tif");
    Files.writeString(file, "no picture");
    BadInputException refusal =
        assertThrows(BadInputException.class, () -> Orthophoto.of(file, PLANE, LOT, 100));
    assertTrue(refusal.getMessage().contains("photo.tif"), refusal.getMessage());
  }

  /** The middle of the square, weighed by redness, lies within half a pixel of the picture. */
  private void checkSquare(WorkingCrs crs, double pixelM) throws Exception {
    int pixels = 300;
    Backdrop picture = Orthophoto.of(photo(crs, pixelM), PLANE, LOT, pixels).orElseThrow();
    assertEquals(LOT, picture.ground());
    assertEquals(pixels, picture.image().getWidth());
    double sum = 0;
    double x = 0;
    double y = 0;
    for (int row = 0; row < picture.image().getHeight(); row++) {
      for (int col = 0; col < pixels; col++) {
        Color colour = new Color(picture.image().getRGB(col, row));
        double red = Math.max(0, colour.getRed() - colour.getGreen());
        sum += red;
        x += red * (col + 0.5);
        y += red * (row + 0.5);
      }
    }
    double perM = pixels / 60.0;
    assertEquals((FROM + TO) / 2 * perM, x / sum, 0.5);
    assertEquals((50 - (FROM + TO) / 2) * perM, y / sum, 0.5);
    assertEquals(Math.pow((TO - FROM) * perM, 2), sum / 255, 0.02 * sum / 255);
  }

  /** Green ground with a red square from 20 m to 30 m east and north of the lot's corner. */
  private Path photo(WorkingCrs crs, double pixelM) throws Exception {
    PlaneTransform to = PlaneTransform.between(CrsLookup.of("EPSG:26915").crs(), crs.crs());
    PlaneTransform back = PlaneTransform.between(crs.crs(), CrsLookup.of("EPSG:26915").crs());
    Envelope held = new Envelope();
    for (double[] corner : new double[][] {{-5, -5}, {65, -5}, {65, 55}, {-5, 55}}) {
      double[] xy = {500000 + corner[0], 4983000 + corner[1]};
      to.apply(xy);
      held.expandToInclude(xy[0], xy[1]);
    }
    int width = (int) Math.ceil(held.getWidth() / pixelM);
    int height = (int) Math.ceil(held.getHeight() / pixelM);
    BufferedImage image = new BufferedImage(width, height, BufferedImage.TYPE_3BYTE_BGR);
    Graphics2D g = image.createGraphics();
    g.setColor(new Color(40, 120, 40));
    g.fillRect(0, 0, width, height);
    g.dispose();
    double west = held.getMinX();
    double north = held.getMaxY();
    for (int row = 0; row < height; row++) {
      for (int col = 0; col < width; col++) {
        double[] xy = {west + (col + 0.5) * pixelM, north - (row + 0.5) * pixelM};
        back.apply(xy);
        double east = xy[0] - 500000;
        double up = xy[1] - 4983000;
        if (east > FROM && east < TO && up > FROM && up < TO) {
          image.setRGB(col, row, 0xFF0000);
        }
      }
    }
    Path file = folder.resolve("photo.tif");
    GeoTiffWriter writer = new GeoTiffWriter(file.toFile());
    writer.write(
        new GridCoverageFactory()
            .create(
                "photo",
                image,
                new ReferencedEnvelope(
                    west, west + width * pixelM, north - height * pixelM, north, crs.crs())),
        new GeneralParameterValue[0]);
    writer.dispose();
    return file;
  }
}
