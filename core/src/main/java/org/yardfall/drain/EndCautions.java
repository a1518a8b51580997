package org.yardfall.drain;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.yardfall.route.DrainLine;
import org.yardfall.route.Station;
import org.yardfall.site.Outlet;
import org.yardfall.site.Parcel;
import org.yardfall.site.Site;

/** What the builder of a drain must mind at its lower end: ties, permits, scour, the neighbour. */
final class EndCautions {

  /**
   * Distance in metres from a neighbour's land that is spoken of: 10 ft ({@code common practice}).
   */
  static final double NEIGHBOUR_M = 3.048;

  /**
   * A pipe less than this out of the ground, in metres, is covered by the bank's own unevenness.
   */
  private static final double BARE_M = 0.01;

  private EndCautions() {}

  /**
   * The cautions of a drain's end.
   *
   * @param outlet where it ends
   * @param end station of its end on the main line in metres
   */
  static List<Caution> of(Outlet outlet, double end, Site site) {
    List<Caution> found = new ArrayList<>();
    found.add(
        switch (outlet.kind()) {
          case CATCH_BASIN ->
              atEnd(
                  "sewer-tie-in",
                  outlet,
                  end,
                  " ties into a drain: its owner's permit and a licensed hand may be needed, and a"
                      + " backwater valve where it can fill. Storm water never goes into a sanitary"
                      + " sewer.");
          case STREET, WATERWAY, DITCH ->
              atEnd(
                  "outlet-permit",
                  outlet,
                  end,
                  " ends at a "
                      + outlet.kind().word()
                      + ": whoever keeps it may ask for a permit, and for protection against scour.");
          case DAYLIGHT ->
              atEnd(
                  "outlet-scour",
                  outlet,
                  end,
                  " lets its water go at one place: spread it on stone and keep it from cutting.");
          case DRY_WELL ->
              atEnd(
                  "dry-well",
                  outlet,
                  end,
                  " soaks away: only a test of the soil there tells whether it does; it must"
                      + " overflow where that harms nobody.");
        });
    Geometry at = new GeometryFactory().createPoint(outlet.at());
    Parcel nearest = null;
    double distance = NEIGHBOUR_M;
    for (Parcel parcel : site.neighbours()) {
      double apart = parcel.outline().distance(at);
      if (apart < distance || (apart == distance && nearest == null)) {
        nearest = parcel;
        distance = apart;
      }
    }
    if (nearest != null) {
      found.add(
          new Caution(
              "neighbour-near",
              "main",
              end,
              distance,
              NEIGHBOUR_M,
              "The outlet lies this near to parcel "
                  + nearest.id()
                  + ": collected water let go here can reach it."
                  + CautionFinder.DEFER));
    }
    return found;
  }

  /**
   * A lower end in which water stays, in ground that freezes; empty where it empties, lies below
   * the frost, or the frost is not known.
   */
  static Optional<Caution> frozen(Outlet outlet, DrainLine line, Site site) {
    Station end = line.stations().get(line.stations().size() - 1);
    Optional<String> why =
        site.outletRules().pumped() ? Optional.empty() : outlet.keepsWaterIn(end.invertM());
    double frost = site.soil().frostDepthM().orElse(0);
    if (why.isEmpty() || end.coverM() >= frost) {
      return Optional.empty();
    }
    return Optional.of(
        new Caution(
            "frost-stands",
            "main",
            end.stationM(),
            end.coverM(),
            frost,
            "The lower end cannot empty: "
                + why.get()
                + ", with less cover than the ground freezes deep. It freezes shut and the drain"
                + " stops until it thaws: lay the end below the frost, or let it run out in the"
                + " open."
                + CautionFinder.DEFER));
  }

  /** A lower end in the open that comes out of the ground; empty where it does not. */
  static Optional<Caution> bare(Outlet outlet, DrainLine line) {
    List<Station> stations = line.stations();
    boolean open =
        outlet.kind() != Outlet.Kind.CATCH_BASIN && outlet.kind() != Outlet.Kind.DRY_WELL;
    double from = Double.NaN;
    double least = 0;
    for (int i = stations.size() - 1; i >= 0 && stations.get(i).coverM() < -BARE_M; i--) {
      from = stations.get(Math.max(0, i - 1)).stationM();
      least = Math.min(least, stations.get(i).coverM());
    }
    if (!open || Double.isNaN(from)) {
      return Optional.empty();
    }
    return Optional.of(
        new Caution(
            "outlet-bare",
            "main",
            from,
            -least,
            Double.NaN,
            "From here to outlet "
                + outlet.id()
                + " the pipe comes out of the ground, at most by so much: lay this end as rigid pipe"
                + " held in the bank, and catch its water on a splash pad of stone."
                + CautionFinder.DEFER));
  }

  private static Caution atEnd(String code, Outlet outlet, double end, String says) {
    String permit =
        outlet.permitNote().isBlank() ? "" : " Noted for it: " + outlet.permitNote() + ".";
    return new Caution(
        code,
        "main",
        end,
        Double.NaN,
        Double.NaN,
        "Outlet " + outlet.id() + says + permit + CautionFinder.DEFER);
  }
}
