package org.yardfall.elevation;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Collectors;
import org.yardfall.site.Assumption;
import org.yardfall.site.CrsLookup;
import org.yardfall.site.WorkingCrs;

/**
 * Settles in which unit each raster's elevations are: as the user states it, else as the file names
 * it, else that of its coordinates, which is an assumption.
 */
final class VerticalUnits {

  private final OptionalDouble statedM;
  private final WorkingCrs crs;
  private final List<Assumption> assumptions;
  private final List<String> warnings;

  /**
   * @param statedM metres per unit as the user states it for every raster
   * @param crs the working CRS
   * @param assumptions where to put what is assumed
   * @param warnings where to put what is odd
   */
  VerticalUnits(
      OptionalDouble statedM, WorkingCrs crs, List<Assumption> assumptions, List<String> warnings) {
    this.statedM = statedM;
    this.crs = crs;
    this.assumptions = assumptions;
    this.warnings = warnings;
  }

  VerticalUnit of(RasterHeader header, RasterCrs rasterCrs) {
    Optional<VerticalUnit> own = header.verticalUnit();
    if (statedM.isEmpty()) {
      return own.orElseGet(() -> assumed(header, rasterCrs));
    }
    VerticalUnit stated =
        VerticalUnit.ofMetres(statedM.getAsDouble(), "elevation.vertical-unit as stated");
    own.filter(unit -> Math.abs(unit.metres() / stated.metres() - 1) > 1e-9)
        .ifPresent(
            unit ->
                warnings.add(
                    String.format(
                        Locale.ROOT,
                        "%s: its elevations are in %s by %s; the stated %s is used instead",
                        header.file(),
                        unit.name(),
                        unit.readFrom(),
                        stated.name())));
    return stated;
  }

  private VerticalUnit assumed(RasterHeader header, RasterCrs rasterCrs) {
    if (!rasterCrs.is(crs) && rasterCrs.geographic()) {
      return assumed(header, 1, "metres are usual with coordinates in degrees");
    }
    double metres =
        rasterCrs.is(crs) ? crs.metresPerUnit() : CrsLookup.metresPerUnit(rasterCrs.definition());
    return assumed(header, metres, "taken to be that of its coordinates");
  }

  private VerticalUnit assumed(RasterHeader header, double metres, String why) {
    VerticalUnit unit = VerticalUnit.ofMetres(metres, "assumed, the file names none");
    assumptions.add(
        new Assumption(
            "elevation.vertical-unit",
            unit.name(),
            header.file().getFileName() + " does not name the unit of its elevations; " + why));
    return unit;
  }

  /** Each raster is converted from its own unit, but tiles of one survey should share one. */
  static void warnOfSeveral(List<AlignedRasters.Part> parts, List<String> warnings) {
    Map<String, String> firstInUnit = new LinkedHashMap<>();
    parts.forEach(part -> firstInUnit.putIfAbsent(part.unit().name(), part.name()));
    if (firstInUnit.size() > 1) {
      warnings.add(
          "the rasters' elevations are in different units: "
              + firstInUnit.entrySet().stream()
                  .map(each -> each.getValue() + " in " + each.getKey())
                  .collect(Collectors.joining(", "))
              + "; each is converted from its own, so check that none is named wrongly");
    }
  }
}
