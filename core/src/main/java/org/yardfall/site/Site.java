package org.yardfall.site;

import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.stream.Stream;

/**
 * What is on the ground and what is asked, validated, in SI, in one working CRS.
 *
 * @param name the site's name; text from outside
 * @param crs the working CRS; plan coordinates are metres of its working plane
 * @param lot the subject lot, or empty where only the raster's surface water is asked
 * @param parcels every parcel read, the lot included, in file order
 * @param buildings footprints
 * @param obstacles what a trench must mind
 * @param crossings slabs to pass under
 * @param outlets where the water may go, in the user's order
 * @param surfaces covers as given; empty: derived from buildings and crossings, the rest lawn
 * @param openings culverts and curb cuts
 * @param soil the soil
 * @param storm the design storm as given
 * @param drain the limits
 * @param prices the unit prices in force
 * @param elevation where the ground comes from
 * @param outletRules where and how water may be let go
 * @param pinned drains that the user drew
 * @param seeps places where water comes out of the ground
 * @param levelled swales that are to be levelled
 * @param assumptions what was not given and was assumed while reading
 * @param warnings what the reader found odd, in words
 * @param inputs the files it was read from
 */
public record Site(
    String name,
    WorkingCrs crs,
    Optional<Parcel> lot,
    List<Parcel> parcels,
    List<Building> buildings,
    List<Obstacle> obstacles,
    List<Crossing> crossings,
    List<Outlet> outlets,
    List<Surface> surfaces,
    List<FlowOpening> openings,
    Soil soil,
    StormInput storm,
    DrainLimits drain,
    Prices prices,
    ElevationInput elevation,
    OutletRules outletRules,
    List<PinnedLine> pinned,
    List<Seep> seeps,
    List<LevelledSwale> levelled,
    List<Assumption> assumptions,
    List<String> warnings,
    SiteInputs inputs) {

  /** Keeps the lists to itself. */
  public Site {
    parcels = List.copyOf(parcels);
    buildings = List.copyOf(buildings);
    obstacles = List.copyOf(obstacles);
    crossings = List.copyOf(crossings);
    outlets = List.copyOf(outlets);
    surfaces = List.copyOf(surfaces);
    openings = List.copyOf(openings);
    pinned = List.copyOf(pinned);
    seeps = List.copyOf(seeps);
    levelled = List.copyOf(levelled);
    assumptions = List.copyOf(assumptions);
    warnings = List.copyOf(warnings);
  }

  /** The parcels that are others' ground: neither the lot's nor public right-of-way. */
  public List<Parcel> neighbours() {
    String own = lot.map(Parcel::id).orElse(null);
    return parcels.stream().filter(p -> !p.rightOfWay() && !p.id().equals(own)).toList();
  }

  /** The same site with other limits. */
  public Site withDrain(DrainLimits limits) {
    return changed(site -> site.drain = limits);
  }

  /** The same site with other outlets. */
  public Site withOutlets(List<Outlet> others) {
    return changed(site -> site.outlets = others);
  }

  /**
   * The same site with what was found on it besides.
   *
   * @param moreOutlets outlets, after its own
   * @param moreBuildings buildings, after its own
   * @param said what was assumed in that
   * @param warned what was odd in that
   */
  public Site with(
      List<Outlet> moreOutlets,
      List<Building> moreBuildings,
      List<Assumption> said,
      List<String> warned) {
    return changed(
        site -> {
          site.outlets = joined(outlets, moreOutlets);
          site.buildings = joined(buildings, moreBuildings);
          site.assumptions = joined(assumptions, said);
          site.warnings = joined(warnings, warned);
        });
  }

  private static <T> List<T> joined(List<T> own, List<T> more) {
    return Stream.concat(own.stream(), more.stream()).toList();
  }

  /** The same site for a reader of a system of units: see {@link Prices#readIn}. */
  public Site readIn(UnitSystem system) {
    return changed(site -> site.prices = prices.readIn(system));
  }

  /** The same site on other ground, in the same working CRS. */
  public Site withElevation(ElevationInput ground) {
    return changed(site -> site.elevation = ground);
  }

  /** The same site with other drains drawn. */
  public Site withPinned(List<PinnedLine> lines) {
    return changed(site -> site.pinned = lines);
  }

  /** The same site without its slabs, to see what they cost. */
  public Site withoutSlabs() {
    return changed(site -> site.crossings = List.of());
  }

  private Site changed(Consumer<SiteDraft> change) {
    SiteDraft draft = new SiteDraft(this);
    change.accept(draft);
    return draft.site();
  }
}
