package org.yardfall.drain;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.locationtech.jts.geom.LineString;

/**
 * The way that water takes over the ground while a drain is blocked: from where most of the drain's
 * water gathers, over the spills of the low spots on the way, to a surface outlet or the end of the
 * known ground. It is found on the ground as it is meant to be in the end.
 *
 * @param line the way in metres of the working plane, down the flow
 * @param areaM2 ground whose water gathers where it begins, in m²
 * @param pools low spots that it fills and spills from, in order
 * @param parcels other ground that it runs onto, in order, each said once
 * @param openings culverts and curb cuts that it runs through, in order
 * @param buildings buildings beside it whose lowest opening is known
 * @param outletId the outlet that it runs into over the ground, or empty where it leaves the known
 *     ground
 */
public record OverlandPath(
    LineString line,
    double areaM2,
    List<Pool> pools,
    List<Onto> parcels,
    List<String> openings,
    List<Beside> buildings,
    String outletId) {

  /** Shallower low spots, in metres, are passed over in the sentence. */
  private static final double SAID_M = 0.03;

  /** Keeps the lists to itself. */
  public OverlandPath {
    pools = List.copyOf(pools);
    parcels = List.copyOf(parcels);
    openings = List.copyOf(openings);
    buildings = List.copyOf(buildings);
  }

  /**
   * A low spot on the way.
   *
   * @param lowSpotId its id
   * @param depthM its depth in metres when it spills
   * @param spillM level at which it spills in metres
   */
  public record Pool(String lowSpotId, double depthM, double spillM) {}

  /**
   * Ground beyond the lot.
   *
   * @param parcelId its parcel, or empty where it lies in none
   * @param rightOfWay whether it is public right-of-way
   */
  public record Onto(String parcelId, boolean rightOfWay) {

    private String words() {
      if (parcelId.isEmpty()) {
        return "ground in no parcel";
      }
      return (rightOfWay ? "the right-of-way " : "parcel ") + parcelId;
    }
  }

  /**
   * A building beside the way.
   *
   * @param buildingId its id
   * @param freeboardM how far its lowest opening stands above the highest bed or water level of the
   *     way beside it, in metres
   */
  public record Beside(String buildingId, double freeboardM) {}

  /** Whether it runs onto a neighbour's ground. */
  public boolean reachesNeighbour() {
    return parcels.stream().anyMatch(p -> !p.rightOfWay() && !p.parcelId().isEmpty());
  }

  /** The way in a sentence. */
  public String sentence() {
    List<String> way = new ArrayList<>();
    List<String> filled =
        pools.stream()
            .filter(pool -> pool.depthM() >= SAID_M)
            .map(p -> String.format(Locale.ROOT, "%s %.2f m deep", p.lowSpotId(), p.depthM()))
            .toList();
    way.add(String.format(Locale.ROOT, "runs %.0f m over the ground", line.getLength()));
    if (!openings.isEmpty()) {
      way.add("passes " + String.join(" and ", openings));
    }
    if (!parcels.isEmpty()) {
      way.add("comes onto " + String.join(", then ", parcels.stream().map(Onto::words).toList()));
    }
    way.add(outletId.isEmpty() ? "leaves the known ground" : "runs into outlet " + outletId);
    StringBuilder say =
        new StringBuilder(
            String.format(
                Locale.ROOT,
                "while it is blocked, the water from where most of it gathers (%.0f m2 of"
                    + " ground)%s ",
                areaM2,
                filled.isEmpty()
                    ? ""
                    : ", once it has filled " + String.join(", then ", filled) + ","));
    say.append(String.join(", ", way.subList(0, way.size() - 1)))
        .append(" and ")
        .append(way.get(way.size() - 1));
    for (Beside building : buildings) {
      say.append(
          String.format(
              Locale.ROOT,
              "; the lowest opening of building %s stands %.2f m %s it",
              building.buildingId(),
              Math.abs(building.freeboardM()),
              building.freeboardM() < 0 ? "below" : "above"));
    }
    return say.toString();
  }
}
