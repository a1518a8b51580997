package org.yardfall.elevation;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.locationtech.jts.geom.Envelope;
import org.yardfall.site.Assumption;
import org.yardfall.site.BadInputException;
import org.yardfall.site.ElevationInput;
import org.yardfall.site.WorkingCrs;

/**
 * The ground of a site, read by window from one or more rasters: GeoTIFF or ASCII grid.
 *
 * <p>Elevations leave in metres on square cells of the working plane, north up. Where the rasters'
 * CRS is the working CRS and their cells are square, nothing is interpolated; everything else is
 * brought onto such cells by bilinear interpolation, and the {@link Terrain} says so.
 */
final class RasterSource implements ElevationSource {

  /** Vertical accuracy taken where none is stated. */
  private static final Assumption ACCURACY =
      new Assumption(
          "elevation.accuracy",
          "0.10 m RMSE",
          "USGS Lidar Base Specification, quality level 2: RMSEz of 10 cm or better");

  private static final double ASSUMED_ACCURACY_M = 0.10;

  private static final Assumption BARE_EARTH =
      new Assumption(
          "elevation.files",
          "the rasters show the bare ground, without roofs and tree crowns",
          "elevation rasters do not record it; common practice, no source");

  /** Cells above this size show no yard. */
  private static final double COARSE_CELL_M = 3;

  private static final long MOST_CELLS = Integer.MAX_VALUE - 8;
  private static final int DESCRIBED_CELLS_ACROSS = 2000;

  private final ElevationInput input;
  private final WorkingCrs crs;
  private final List<GroundLayer> layers;
  private final double originX;
  private final double originY;
  private final double cellM;
  private final Envelope extent = new Envelope();
  private final String verticalDatum;
  private final List<Assumption> assumptions = new ArrayList<>();
  private final List<String> warnings = new ArrayList<>();

  /**
   * Opens the rasters of a site and reads their headers.
   *
   * @param input the rasters and what the user says of them; survey shots are not read here
   * @param crs the working CRS
   * @throws BadInputException where a raster is missing, holds no elevations, has no CRS, or does
   *     not go with the others
   */
  RasterSource(ElevationInput input, WorkingCrs crs) {
    this.input = input;
    this.crs = crs;
    VerticalUnits units = new VerticalUnits(input.verticalUnitM(), crs, assumptions, warnings);
    List<AlignedRasters.Part> parts =
        input.rasters().stream().map(file -> open(file, units)).toList();
    this.layers =
        AlignedRasters.group(parts).stream().map(group -> new GroundLayer(group, crs)).toList();
    for (GroundLayer layer : layers) {
      extent.expandToInclude(layer.extent());
      assumptions.addAll(layer.assumptions());
      warnings.addAll(layer.warnings());
    }
    GroundLayer finest =
        layers.stream().min(Comparator.comparingDouble(GroundLayer::cellM)).orElseThrow();
    this.originX = finest.originX();
    this.originY = finest.originY();
    this.cellM = finest.cellM();
    this.verticalDatum = verticalDatum(parts);
    VerticalUnits.warnOfSeveral(parts, warnings);
    noteCells(finest);
    assumptions.add(BARE_EARTH);
    if (input.accuracyM().isEmpty()) {
      assumptions.add(ACCURACY);
    }
  }

  private AlignedRasters.Part open(Path file, VerticalUnits units) {
    RasterFile raster = RasterFiles.open(file);
    RasterHeader header = raster.header();
    Optional<RasterCrs> override =
        input.crsOverride() == null || input.crsOverride().isBlank()
            ? Optional.empty()
            : Optional.of(RasterCrs.ofName(input.crsOverride(), "elevation.crs"));
    RasterCrs rasterCrs =
        header.crs().or(() -> override).orElseThrow(() -> OwnPlanes.withoutCrs(file));
    if (header.crs().isPresent() && override.isPresent() && !rasterCrs.is(override.get())) {
      warnings.add(
          String.format(
              Locale.ROOT,
              "%s names its own CRS, %s; %s given for rasters without one is not used for it",
              file,
              rasterCrs.name(),
              override.get().name()));
    }
    if (!rasterCrs.is(crs)) {
      rasterCrs.checkEarth();
    }
    header.warnings().forEach(warning -> warnings.add(file + ": " + warning));
    return new AlignedRasters.Part(raster, rasterCrs, units.of(header, rasterCrs), 0, 0);
  }

  private String verticalDatum(List<AlignedRasters.Part> parts) {
    Set<String> named =
        parts.stream()
            .map(part -> part.raster().header().verticalDatum())
            .filter(name -> !name.isBlank())
            .collect(Collectors.toCollection(LinkedHashSet::new));
    if (named.size() > 1) {
      throw new BadInputException(
          "elevation.files",
          "the rasters stand on different vertical datums: " + String.join(", ", named),
          "give rasters of one vertical datum");
    }
    String own = named.isEmpty() ? "" : named.iterator().next();
    String stated = input.verticalDatum() == null ? "" : input.verticalDatum();
    if (!stated.isBlank() && !own.isBlank() && !stated.equalsIgnoreCase(own)) {
      warnings.add(
          "the vertical datum is stated as '" + stated + "'; the rasters name '" + own + "'");
    }
    return stated.isBlank() ? own : stated;
  }

  private void noteCells(GroundLayer finest) {
    for (GroundLayer layer : layers) {
      RasterCrs own = layer.rasters().crs();
      if (!layer.sameCrs() && !own.geographic()) {
        warnings.add(
            String.format(
                Locale.ROOT,
                "%s is in %s, not in the working CRS %s; it was interpolated anew",
                layer.rasters().header().file(),
                own.name(),
                crs.name()));
      }
      if (layer != finest && layer.sameCrs()) {
        assumptions.add(
            new Assumption(
                "elevation.files",
                String.format(
                    Locale.ROOT,
                    "%s (cells of %.4g m) brought by bilinear interpolation onto the cells of %s"
                        + " (%.4g m)",
                    layer.rasters().header().file(),
                    layer.cellM(),
                    finest.rasters().header().file(),
                    cellM),
                "the rasters' grids differ"));
      }
    }
    if (cellM > COARSE_CELL_M) {
      warnings.add(
          String.format(
              Locale.ROOT,
              "cells of %.4g m are too coarse to show a yard's low spots and swales",
              cellM));
    }
  }

  @Override
  public Envelope extentM() {
    return new Envelope(extent);
  }

  @Override
  public double cellM() {
    return cellM;
  }

  @Override
  public Terrain read(Envelope windowM) {
    GridFrame frame = frame(windowM);
    GroundScale.check(crs, frame.envelope());
    double accuracyM = input.accuracyM().orElse(ASSUMED_ACCURACY_M);
    Seams seams = new Seams(accuracyM);
    Set<String> found = new LinkedHashSet<>(warnings);
    double stepM = 0;
    float[] z = null;
    for (GroundLayer layer : layers) {
      GroundLayer.Reading reading = layer.read(frame, seams, found);
      if (reading.onFrame().length == 0) {
        continue;
      }
      GroundSense sense = sense(layer, reading);
      found.addAll(sense.warnings());
      stepM = Math.max(stepM, sense.stepM());
      if (z == null) {
        z = reading.onFrame();
      } else {
        seams.merge(z, reading.onFrame(), frame, layer.rasters().header().file().toString());
      }
    }
    found.addAll(seams.warnings());
    if (z == null || allUnknown(z)) {
      throw new BadInputException(
          names(),
          "there is no elevation in the window that is asked for: all its cells are NoData",
          "give a raster that knows the ground there");
    }
    return new Terrain(
        new ElevationGrid(frame, z),
        describeFiles(),
        accuracyM,
        input.accuracyM().isPresent(),
        stepM,
        verticalDatum,
        assumptions,
        List.copyOf(found));
  }

  private GroundSense sense(GroundLayer layer, GroundLayer.Reading reading) {
    AlignedRasters.Part part = layer.rasters().parts().get(0);
    double scale = Math.abs(part.raster().header().scale());
    boolean integer = layer.rasters().integer();
    return new GroundSense(
        reading.stored(),
        reading.storedCols(),
        layer.cellM(),
        part.unit().metres() * (integer ? scale : 1),
        integer,
        part.name());
  }

  private static boolean allUnknown(float[] z) {
    for (float height : z) {
      if (!Float.isNaN(height)) {
        return false;
      }
    }
    return true;
  }

  private String names() {
    return input.rasters().stream().map(Path::toString).collect(Collectors.joining(", "));
  }

  /** The whole cells of the grid that cover a window, cut at the rasters' end. */
  private GridFrame frame(Envelope windowM) {
    Envelope window = windowM.intersection(extent);
    if (window.isNull() || window.getWidth() <= 0 || window.getHeight() <= 0) {
      throw new BadInputException(
          names(),
          String.format(
              Locale.ROOT,
              "the place asked for (%s) lies outside the elevation rasters (%s)",
              inCrsUnit(windowM),
              inCrsUnit(extent)),
          "check the CRS of both, or give a raster of that place");
    }
    long west = cellBelow(window.getMinX() - originX);
    long east = Math.max(west + 1, cellAbove(window.getMaxX() - originX));
    long north = cellBelow(originY - window.getMaxY());
    long south = Math.max(north + 1, cellAbove(originY - window.getMinY()));
    long cols = east - west;
    long rows = south - north;
    if (cols > MOST_CELLS || rows > MOST_CELLS || cols * rows > MOST_CELLS) {
      throw new BadInputException(
          names(),
          String.format(
              Locale.ROOT,
              "%d x %d = %d cells are asked for; at most %d can be handled at once",
              cols,
              rows,
              cols > MOST_CELLS || rows > MOST_CELLS ? Long.MAX_VALUE : cols * rows,
              MOST_CELLS),
          "cut the raster to the neighbourhood or use larger cells");
    }
    return new GridFrame(
        (int) cols, (int) rows, originX + west * cellM, originY - north * cellM, cellM);
  }

  private long cellBelow(double metres) {
    return (long) Math.floor(metres / cellM + 1e-6);
  }

  private long cellAbove(double metres) {
    return (long) Math.ceil(metres / cellM - 1e-6);
  }

  private String inCrsUnit(Envelope metres) {
    return String.format(
        Locale.ROOT,
        "%.1f to %.1f, %.1f to %.1f in %s",
        crs.toCrsUnit(metres.getMinX()),
        crs.toCrsUnit(metres.getMaxX()),
        crs.toCrsUnit(metres.getMinY()),
        crs.toCrsUnit(metres.getMaxY()),
        crs.name());
  }

  private List<String> describeFiles() {
    return layers.stream()
        .flatMap(layer -> layer.rasters().parts().stream())
        .sorted(
            Comparator.comparingInt(part -> input.rasters().indexOf(part.raster().header().file())))
        .map(RasterWords::of)
        .toList();
  }

  /**
   * What the rasters hold, in lines for a person: for each its CRS, units and where they were read,
   * size, cell size, extent, data type and NoData; then, from reading the whole or, of a large
   * raster, its middle, the share of unknown cells and the range of elevations.
   *
   * @throws BadInputException where the data cannot be read
   */
  @Override
  public List<String> describe() {
    List<String> lines = new ArrayList<>(describeFiles());
    Envelope middle = new Envelope(extent.centre());
    middle.expandBy(DESCRIBED_CELLS_ACROSS / 2.0 * cellM);
    Envelope window = middle.contains(extent) ? extent : middle;
    Terrain terrain = read(window);
    float[] z = terrain.ground().z();
    GroundSense sense =
        new GroundSense(z, terrain.ground().frame().cols(), cellM, 1, false, names());
    lines.add(
        String.format(
            Locale.ROOT,
            "working plane %s: cells of %.6g m, extent %s; %s%.1f %% NoData, elevations %.2f to %.2f m,"
                + " vertical datum %s",
            crs.name(),
            cellM,
            inCrsUnit(extent),
            middle.contains(extent) ? "" : "in its middle ",
            100.0 * (z.length - sense.known()) / z.length,
            sense.minM(),
            sense.maxM(),
            verticalDatum.isBlank() ? "not named" : verticalDatum));
    if (terrain.stepM() > 0) {
      lines.add(String.format(Locale.ROOT, "elevations are rounded to %.4g m", terrain.stepM()));
    }
    return lines;
  }
}
