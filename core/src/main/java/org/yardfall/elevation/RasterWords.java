package org.yardfall.elevation;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.Locale;

/** Says in a line what a raster holds. */
final class RasterWords {

  private static final int DIGITS = 12;

  private RasterWords() {}

  /** The line for one raster, as {@code check} prints it. */
  static String of(AlignedRasters.Part part) {
    RasterHeader header = part.raster().header();
    double wide = Math.hypot(header.cellToCrs().getScaleX(), header.cellToCrs().getShearY());
    double high = Math.hypot(header.cellToCrs().getScaleY(), header.cellToCrs().getShearX());
    double[] corners = {0, 0, header.cols(), header.rows()};
    header.cellToCrs().transform(corners, 0, corners, 0, 2);
    return String.format(
        Locale.ROOT,
        "%s: %s, %d x %d cells of %s, %s to %s, %s to %s; %s%s; elevations in %s (%s)%s; NoData %s",
        header.file(),
        part.crs().name(),
        header.cols(),
        header.rows(),
        wide == high ? number(wide) : number(wide) + " x " + number(high),
        number(Math.min(corners[0], corners[2])),
        number(Math.max(corners[0], corners[2])),
        number(Math.min(corners[1], corners[3])),
        number(Math.max(corners[1], corners[3])),
        header.type().words(),
        header.scale() == 1 && header.offset() == 0
            ? ""
            : " times " + number(header.scale()) + " plus " + number(header.offset()),
        part.unit().name(),
        part.unit().readFrom(),
        header.verticalDatum().isBlank() ? "" : ", " + header.verticalDatum(),
        header.noData().isPresent() ? number(header.noData().getAsDouble()) : "not declared");
  }

  private static String number(double value) {
    double size = Math.abs(value);
    boolean plain = size == 0 || (size >= 1e-6 && size < 1e15);
    return plain
        ? new BigDecimal(value).round(new MathContext(DIGITS)).stripTrailingZeros().toPlainString()
        : String.format(Locale.ROOT, "%.8g", value);
  }
}
