package org.yardfall.layer;

import java.util.Set;
import org.geotools.api.referencing.crs.CoordinateReferenceSystem;
import org.geotools.api.referencing.crs.ProjectedCRS;
import org.geotools.metadata.iso.citation.Citations;
import org.geotools.referencing.wkt.Formattable;

/**
 * A projected CRS as the well-known text of a shapefile's {@code .prj}.
 *
 * <p>For the transverse Mercator and the two-parallel Lambert projections, on which UTM zones and
 * nearly all state plane zones stand, the text uses the names of the shapefile's maker; for others
 * the names of OGC 01-009, which readers of shapefiles understand as well. The CRS's own code is
 * kept in both.
 */
final class PrjText {

  private static final Set<String> RENAMED =
      Set.of("Transverse Mercator", "Lambert Conic Conformal (2SP)");

  private static final String LAMBERT = "PROJECTION[\"Lambert_Conformal_Conic\"";

  private PrjText() {}

  static String of(CoordinateReferenceSystem crs) {
    Formattable text = (Formattable) crs;
    if (!(crs instanceof ProjectedCRS projected)
        || !RENAMED.contains(projected.getConversionFromBase().getMethod().getName().getCode())) {
      return text.toWKT(Citations.OGC, 0);
    }
    return text.toWKT(Citations.ESRI, 0)
        // GeoTools picks the name that only oblique projections bear.
        .replace("PARAMETER[\"Longitude_Of_Center\"", "PARAMETER[\"Central_Meridian\"")
        .replace("PROJECTION[\"Lambert Conic Conformal (2SP)\"", LAMBERT)
        .replace("PROJECTION[\"Lambert_Conformal_Conic_2SP\"", LAMBERT)
        .replaceAll(", (TOWGS84|AXIS)\\[[^\\]]*\\]", "")
        .replaceAll(", AUTHORITY\\[[^\\]]*\\](?!\\]$)", "");
  }
}
