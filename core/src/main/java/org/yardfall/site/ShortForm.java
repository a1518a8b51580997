package org.yardfall.site;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;

/** A site named by files and outlets alone, for a first look; everything else is assumed. */
public final class ShortForm {

  private static final String SOURCE = "command line";

  private final List<Path> rasters = new ArrayList<>();
  private final List<String> outlets = new ArrayList<>();
  private Path shots;
  private Path parcels;
  private String idField;
  private String lot;
  private Path buildings;
  private Path obstacles;
  private Path crossings;
  private Path pinned;
  private String crs;

  ShortForm() {}

  /** An elevation raster; may be called several times. */
  public ShortForm elevation(Path raster) {
    rasters.add(absolute(raster));
    return this;
  }

  /** Survey shots in place of a raster, or beside it. */
  public ShortForm shots(Path file) {
    shots = absolute(file);
    return this;
  }

  /** The parcels' outlines. */
  public ShortForm parcels(Path file) {
    parcels = absolute(file);
    return this;
  }

  /** The attribute that holds the parcels' ids; the features' own ids if not given. */
  public ShortForm idField(String field) {
    idField = field;
    return this;
  }

  /** The subject lot's id. */
  public ShortForm lot(String id) {
    lot = id;
    return this;
  }

  /**
   * An outlet as {@code E,N} or {@code E,N,INVERT}: easting and northing in the working CRS's own
   * unit, invert in metres or with its unit ({@code 791.2 ft}). May be called several times.
   * Without an invert the pipe ends at the ground there.
   */
  public ShortForm outlet(String text) {
    outlets.add(text);
    return this;
  }

  /** The buildings' footprints. */
  public ShortForm buildings(Path file) {
    buildings = absolute(file);
    return this;
  }

  /** What a trench must mind. */
  public ShortForm obstacles(Path file) {
    obstacles = absolute(file);
    return this;
  }

  /** Slabs to pass under. */
  public ShortForm crossings(Path file) {
    crossings = absolute(file);
    return this;
  }

  /** Drains that the user drew. */
  public ShortForm pinned(Path file) {
    pinned = absolute(file);
    return this;
  }

  /** The working CRS; also that of rasters and shapefiles that do not know theirs. */
  public ShortForm crs(String name) {
    crs = name;
    return this;
  }

  /**
   * Reads the files.
   *
   * @param planes as for {@link SiteReader#read}
   * @throws BadInputException with every problem found
   */
  public Site read(RasterPlanes planes) {
    Problems problems = new Problems();
    if (rasters.isEmpty() && shots == null) {
      problems.add(SOURCE, "no elevation is given", "name a raster with --elevation");
    }
    if (lot != null && parcels == null) {
      problems.add(SOURCE, "a lot is named but no file of parcels", "name it with --parcels");
    }
    List<SiteRequest.PlacedOutlet> placed = new ArrayList<>();
    for (String outlet : outlets) {
      problems.attempt(() -> placed(outlet, placed.size() + 1)).ifPresent(placed::add);
    }
    List<Assumption> assumptions = new ArrayList<>();
    YamlSection nothing = new YamlSection(SOURCE, problems);
    Soil soil = GroundSections.soil(nothing, assumptions);
    StormInput storm = GroundSections.storm(nothing, Path::of, assumptions);
    DrainLimits drain = DrainSection.limits(nothing, soil, assumptions);
    List<Assumption> assumedRules = new ArrayList<>();
    OutletRules rules = OutletRulesSection.read(nothing, assumedRules);
    SiteRequest request =
        new SiteRequest(
            SOURCE,
            "",
            new SiteInputs(
                crs,
                null,
                source(parcels, idField),
                lot,
                List.of(),
                source(buildings, null),
                source(obstacles, null),
                source(crossings, null),
                null,
                null,
                null,
                source(pinned, null),
                null,
                null,
                null),
            placed,
            soil,
            storm,
            drain,
            DrainSection.prices(nothing, drain.trenchWidthM(), assumptions),
            new ElevationInput(
                rasters,
                shots,
                null,
                OptionalDouble.empty(),
                "",
                OptionalDouble.empty(),
                crs,
                ShotInput.NONE,
                ""),
            rules,
            assumptions,
            assumedRules);
    return SiteAssembler.assemble(request, planes, problems);
  }

  private static SiteRequest.PlacedOutlet placed(String text, int number) {
    String[] parts = text.split("\\s*,\\s*", 3);
    try {
      if (parts.length >= 2) {
        return new SiteRequest.PlacedOutlet(
            SOURCE + " outlet " + text,
            String.valueOf(number),
            Outlet.Kind.CATCH_BASIN,
            Quantities.number(parts[0]),
            Quantities.number(parts[1]),
            parts.length == 3
                ? OptionalDouble.of(Quantities.lengthM(parts[2]))
                : OptionalDouble.empty(),
            OptionalDouble.empty(),
            OptionalDouble.empty(),
            "",
            OptionalDouble.empty());
      }
    } catch (IllegalArgumentException e) {
      // said below, with what is expected
    }
    throw new BadInputException(
        SOURCE, "the outlet '" + text + "' is not understood", "write it E,N or E,N,INVERT");
  }

  private LayerSource source(Path file, String field) {
    if (file == null) {
      return null;
    }
    boolean unknown = crs != null && ShapefileLayerReader.lacksCrs(file);
    return new LayerSource(file, null, unknown ? crs : null, field, null);
  }

  private static Path absolute(Path path) {
    return path.toAbsolutePath().normalize();
  }
}
