package org.yardfall.layer;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.locationtech.jts.geom.Coordinate;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.elevation.GridFrame;
import org.yardfall.route.Audit;
import org.yardfall.route.Bore;
import org.yardfall.route.DrainKind;
import org.yardfall.route.DrainLine;
import org.yardfall.route.GravityReach;
import org.yardfall.route.MadeUpRoute;
import org.yardfall.route.Rejection;
import org.yardfall.route.Route;
import org.yardfall.route.RoutePlan;
import org.yardfall.route.SlabPipes;
import org.yardfall.route.Station;
import org.yardfall.route.Station.Span;
import org.yardfall.site.Assumption;
import org.yardfall.site.DrainLimits;
import org.yardfall.site.Outlet;

/** The drains of the lot of {@link ResultFixture}, and those that were rejected, drawn by hand. */
final class InventedPlan {

  private final InventedLot lot;

  InventedPlan(InventedLot lot) {
    this.lot = lot;
  }

  RoutePlan plan(ElevationGrid ground) {
    DrainLine main =
        drain(
            0.01,
            0.5,
            lot.at(5, 45),
            lot.at(30, 45),
            lot.at(55, 45),
            lot.at(55, 10.5),
            lot.at(55, 2));
    DrainLine branch = drain(0.01, 0.5, lot.at(30, 20), lot.at(55, 20));
    DrainLine curtain = drain(0.012, 0.45, lot.at(13, 20), lot.at(29, 20), lot.at(55, 2));
    return new RoutePlan(
        List.of(
            route(1, DrainKind.PERIMETER, main, List.of(new Route.Branch(branch, 75))),
            route(2, DrainKind.CURTAIN, curtain, List.of())),
        List.of(
            new Rejection(
                "X1",
                DrainKind.LOW_SPOT,
                "CB1",
                List.of(lot.at(30, 25), lot.at(40, 20)),
                "no-fall",
                "the low spot lies 0.12 m too low to fall to CB1 at 0.5 %",
                List.of(
                    new Rejection.Relaxation("outlet", 0.12, "m"),
                    new Rejection.Relaxation("min-grade", 0.0021, "m/m")),
                OptionalDouble.of(0.12)),
            new Rejection(
                "X2",
                DrainKind.CURTAIN,
                "",
                List.of(),
                "nothing-arrives",
                "no water reaches the building",
                List.of(),
                OptionalDouble.empty())),
        Optional.of(reach(ground)),
        List.of(new Assumption("prices", "relative weights", "common practice, no source")),
        List.of(),
        List.of(
            new Outlet(
                "daylight 1",
                Outlet.Kind.DAYLIGHT,
                lot.at(58, 1),
                OptionalDouble.of(241.1),
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                "")));
  }

  private static Route route(
      int rank, DrainKind kind, DrainLine main, List<Route.Branch> branches) {
    return MadeUpRoute.to("CB1", main, branches)
        .ranked(rank, kind)
        .searchPrice(main.lengthM() * 95)
        .bored(
            List.of("bored under walk at 84.5 m"), List.of(new Bore(0, 84.5, 86, SlabPipes.two())))
        .said(List.of("takes the water of I1"), List.of("Locate buried utilities before digging."))
        .audit(
            new Audit(
                List.of(
                    new Audit.Check("falls", true, 0.01, 0.005, "m/m", 12.5),
                    new Audit.Check("cover", true, 0.336, 0.15, "m", 0))))
        .make();
  }

  /** A line that starts at a depth and falls steadily, with a station at each point. */
  private DrainLine drain(double grade, double depthM, Coordinate... points) {
    List<Station> stations = new ArrayList<>();
    double station = 0;
    for (int i = 0; i < points.length; i++) {
      station += i == 0 ? 0 : points[i].distance(points[i - 1]);
      double top = InventedLot.plane(points[0].x - lot.x0, points[0].y - lot.y0) - depthM;
      double ground = InventedLot.plane(points[i].x - lot.x0, points[i].y - lot.y0);
      double invert = top - grade * station;
      stations.add(
          new Station(
              station,
              points[i].x,
              points[i].y,
              ground,
              invert,
              ground - invert - 0.114,
              ground - invert,
              grade,
              i == points.length - 2 ? Span.BORED : Span.OPEN));
    }
    return new DrainLine(Arrays.asList(points), stations);
  }

  private GravityReach reach(ElevationGrid ground) {
    DrainLimits limits = lot.site().drain();
    GridFrame frame = ground.frame();
    double[] invert = new double[frame.size()];
    int[] outlet = new int[frame.size()];
    Coordinate basin = lot.at(55, 2);
    for (int cell = 0; cell < invert.length; cell++) {
      Coordinate place = frame.centre(cell);
      double z = ground.z()[cell];
      double lowest =
          Math.max(240.9 + limits.minGrade() * place.distance(basin), limits.lowestInvertM(z));
      boolean usable = lowest <= limits.highestInvertM(z);
      invert[cell] = usable ? lowest : Double.NaN;
      outlet[cell] = usable ? 0 : -1;
    }
    return new GravityReach(frame, List.of("CB1"), invert, outlet, Optional.empty());
  }
}
