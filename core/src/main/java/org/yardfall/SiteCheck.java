package org.yardfall;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.locationtech.jts.geom.Envelope;
import org.yardfall.elevation.ElevationSource;
import org.yardfall.elevation.Terrain;
import org.yardfall.site.Assumption;
import org.yardfall.site.BadInputException;
import org.yardfall.site.Outlet;
import org.yardfall.site.Parcel;
import org.yardfall.site.Site;
import org.yardfall.site.UnitSystem;

/**
 * Says what each input of a site holds and whether a plan can be made of it, before any is made.
 *
 * @param lines what was read, in words
 * @param warnings what is odd, in words
 * @param assumptions what is not given and will be assumed
 */
public record SiteCheck(List<String> lines, List<String> warnings, List<Assumption> assumptions) {

  /** Keeps the lists to itself. */
  public SiteCheck {
    lines = List.copyOf(lines);
    warnings = List.copyOf(warnings);
    assumptions = List.copyOf(assumptions);
  }

  /**
   * Checks a site that was read.
   *
   * @throws BadInputException if its elevation cannot be read or does not cover the lot
   */
  public static SiteCheck of(Site given, UnitSystem units) {
    List<String> lines = new ArrayList<>();
    lines.add("working CRS: " + given.crs().name());
    ElevationSource source =
        ElevationSource.open(
            given.elevation(), given.crs(), given.lot().map(Parcel::outline).orElse(null));
    Site site = source.features().on(given);
    lines.addAll(source.describe());
    lines.add(count(site.parcels().size(), "parcel") + lot(site, units));
    lines.add(
        String.join(
            ", ",
            count(site.buildings().size(), "building"),
            count(site.obstacles().size(), "obstacle"),
            count(site.crossings().size(), "crossing"),
            count(site.openings().size(), "opening")));
    CatchmentWindow window = CatchmentWindow.read(site, source);
    Terrain terrain = window.terrain();
    lines.add(known(terrain, units));
    if (site.outlets().isEmpty()) {
      lines.add("no outlet is given: only daylight on the lot's own slope can be found");
    }
    for (Outlet outlet : site.outlets()) {
      lines.add(outlet(outlet, terrain, units));
    }
    List<String> warnings = new ArrayList<>(site.warnings());
    warnings.addAll(terrain.warnings());
    window.cutOff().ifPresent(warnings::add);
    List<Assumption> assumptions = new ArrayList<>(site.assumptions());
    assumptions.addAll(terrain.assumptions());
    return new SiteCheck(
        lines.stream().map(units::restate).toList(),
        warnings.stream().map(units::restate).toList(),
        assumptions.stream()
            .map(
                a -> new Assumption(a.about(), units.restate(a.value()), units.restate(a.source())))
            .toList());
  }

  private static String lot(Site site, UnitSystem units) {
    return site.lot()
        .map(
            lot ->
                "; lot "
                    + lot.id()
                    + " found, "
                    + units.area(lot.outline().getArea())
                    + ", "
                    + units.length(lot.outline().getLength())
                    + " round")
        .orElse("; no lot named: the water of the whole elevation can be asked for");
  }

  private static String known(Terrain terrain, UnitSystem units) {
    float[] z = terrain.ground().z();
    int unknown = 0;
    for (float elevation : z) {
      unknown += Float.isNaN(elevation) ? 1 : 0;
    }
    Envelope window = terrain.ground().frame().envelope();
    return String.format(
        Locale.ROOT,
        "ground read for the catchment: %s by %s, %.1f %% of it without elevation",
        units.length(window.getWidth()),
        units.length(window.getHeight()),
        100.0 * unknown / z.length);
  }

  private static String outlet(Outlet outlet, Terrain terrain, UnitSystem units) {
    double ground = terrain.ground().bilinear(outlet.at().x, outlet.at().y);
    StringBuilder say =
        new StringBuilder("outlet " + outlet.id() + " (" + outlet.kind().word() + "): ");
    if (Double.isNaN(ground)) {
      return say.append("lies where no elevation is known; move it or extend the elevation")
          .toString();
    }
    say.append("ground ").append(units.elevation(ground));
    outlet.invertM().ifPresent(invert -> say.append(", invert ").append(units.elevation(invert)));
    outlet
        .waterLevelM()
        .ifPresent(level -> say.append(", water at storm ").append(units.elevation(level)));
    outlet.lidM().ifPresent(lid -> say.append(", lid ").append(units.elevation(lid)));
    return say.toString();
  }

  private static String count(int n, String thing) {
    return n + " " + thing + (n == 1 ? "" : "s");
  }
}
