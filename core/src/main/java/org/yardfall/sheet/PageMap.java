package org.yardfall.sheet;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.Base64;
import java.util.Optional;
import org.locationtech.jts.geom.Envelope;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.layer.Result;
import org.yardfall.site.UnitSystem;

/** The map of the review page: pictures, ground levels and, by {@link PageLayers}, its layers. */
final class PageMap {

  private static final int PICTURE_PIXELS = 1400;
  private static final int DEPTH_PIXELS = 900;
  private static final int MOST_HEIGHTS = 220;
  private static final float QUALITY = 0.8f;

  private final Result result;
  private final UnitSystem units;
  private final Envelope extent;
  private final PageShapes shapes;

  PageMap(Result result, UnitSystem units) {
    this.result = result;
    this.units = units;
    this.extent = result.terrain().ground().frame().envelope();
    this.shapes = new PageShapes(extent.getMinX(), extent.getMinY());
  }

  PageShapes shapes() {
    return shapes;
  }

  void write(ObjectNode page) throws IOException {
    page.putArray("origin").add(extent.getMinX()).add(extent.getMinY());
    Envelope view = SiteExtent.of(result);
    bounds(page.putArray("view"), view);
    pictures(page.putArray("pictures"));
    heights(page.putObject("heights"));
    new PageLayers(result, units, shapes).write(page);
  }

  private void bounds(ArrayNode to, Envelope e) {
    shapes.point(to.addArray(), e.getMinX(), e.getMinY());
    shapes.point(to.addArray(), e.getMaxX(), e.getMaxY());
  }

  private void pictures(ArrayNode pictures) throws IOException {
    picture(
        pictures,
        "relief",
        "Shaded relief",
        "image/jpeg",
        Pictures::jpeg,
        Backdrop.hillshade(result.terrain().ground(), extent, PICTURE_PIXELS));
    Optional<Backdrop> photo =
        Orthophoto.of(
            result.site().inputs().ortho(),
            result.site().crs(),
            SiteExtent.photo(result),
            PICTURE_PIXELS);
    if (photo.isPresent()) {
      picture(pictures, "photo", "Aerial photograph", "image/jpeg", Pictures::jpeg, photo.get());
    }
    if (result.standing().isPresent() && !result.standing().get().ponds().isEmpty()) {
      picture(
          pictures,
          "depths",
          "Water left standing",
          "image/png",
          (image, quality) -> Pictures.png(image),
          Backdrop.depths(result, result.standing().get(), new DepthClasses(units), DEPTH_PIXELS));
    }
  }

  private interface Encoder {
    byte[] encode(java.awt.image.BufferedImage image, float quality) throws IOException;
  }

  private void picture(
      ArrayNode pictures, String id, String title, String type, Encoder encoder, Backdrop picture)
      throws IOException {
    ObjectNode node = pictures.addObject();
    node.put("id", id).put("title", title);
    bounds(node.putArray("bounds"), picture.ground());
    node.put(
        "uri",
        "data:"
            + type
            + ";base64,"
            + Base64.getEncoder().encodeToString(encoder.encode(picture.image(), QUALITY)));
  }

  /** Ground levels in centimetres above a base, row by row from the north-west. */
  private void heights(ObjectNode node) {
    ElevationGrid grid = result.terrain().ground();
    double cell =
        Math.max(
            grid.frame().cellM(), Math.max(extent.getWidth(), extent.getHeight()) / MOST_HEIGHTS);
    int cols = (int) Math.ceil(extent.getWidth() / cell);
    int rows = (int) Math.ceil(extent.getHeight() / cell);
    double base = Double.POSITIVE_INFINITY;
    for (float z : grid.z()) {
      base = z < base ? z : base;
    }
    base = Double.isInfinite(base) ? 0 : Math.floor(base);
    ByteBuffer levels = ByteBuffer.allocate(2 * cols * rows).order(ByteOrder.LITTLE_ENDIAN);
    for (int row = 0; row < rows; row++) {
      for (int col = 0; col < cols; col++) {
        double level =
            grid.bilinear(
                extent.getMinX() + (col + 0.5) * cell, extent.getMaxY() - (row + 0.5) * cell);
        double steps = Math.rint((level - base) * 100);
        levels.putShort(steps <= Short.MAX_VALUE ? (short) steps : -1);
      }
    }
    node.put("cols", cols).put("rows", rows).put("cell", cell).put("base", base);
    node.put("north", extent.getHeight());
    node.put("cm", Base64.getEncoder().encodeToString(levels.array()));
  }
}
