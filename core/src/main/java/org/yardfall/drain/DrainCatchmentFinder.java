package org.yardfall.drain;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LineSegment;
import org.locationtech.jts.geom.Point;
import org.locationtech.jts.geom.prep.PreparedGeometry;
import org.locationtech.jts.geom.prep.PreparedGeometryFactory;
import org.yardfall.drain.DrainCatchment.Place;
import org.yardfall.drain.DrainCatchment.Served;
import org.yardfall.drain.DrainCatchment.Share;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.elevation.GridFrame;
import org.yardfall.elevation.Terrain;
import org.yardfall.route.DrainLine;
import org.yardfall.route.Route;
import org.yardfall.route.Station;
import org.yardfall.runoff.CellRunoff;
import org.yardfall.runoff.Storm;
import org.yardfall.runoff.SurfaceCover;
import org.yardfall.runoff.TimeOfConcentration;
import org.yardfall.site.Outlet;
import org.yardfall.site.Site;
import org.yardfall.water.FlowField;
import org.yardfall.water.LowSpot;
import org.yardfall.water.SurfaceWater;

/**
 * Finds the ground whose water a drain takes.
 *
 * <p>Water follows the flow field until it meets an open stretch, or a low spot that an open
 * stretch runs through, and is taken there, once; what meets no stretch runs on. A cell meets a
 * stretch within 0.71 of its size, so that no path slips through diagonally. Bored and solid
 * stretches take nothing. A low spot with a catch basin in it drains into that, and is not the
 * drain's. O(n) in the cells of the grid.
 */
public final class DrainCatchmentFinder {

  private static final double REACH_CELLS = 0.7072;
  private static final GeometryFactory FACTORY = new GeometryFactory();
  private static final int UNTRACED = -2;
  private static final int NOWHERE = -1;

  private final Site site;
  private final ElevationGrid ground;
  private final SurfaceWater water;
  private final FlowField flow;
  private final GridFrame frame;
  private final SurfaceCover cover;
  private final double[] runoffM;
  private final CellRunoff cellRunoff;
  private final List<Coordinate> basins;

  private DrainCatchmentFinder(Site site, Terrain terrain, SurfaceWater water, Storm storm) {
    this.site = site;
    this.ground = terrain.ground();
    this.water = water;
    this.flow = water.flow();
    this.frame = flow.frame();
    this.cover = SurfaceCover.of(site, water);
    this.runoffM = cover.runoffDepthM(storm.depthM());
    this.basins =
        site.outlets().stream()
            .filter(outlet -> outlet.kind() == Outlet.Kind.CATCH_BASIN)
            .map(Outlet::at)
            .toList();
    this.cellRunoff = new CellRunoff(water, ground, cover, TimeOfConcentration.Settings.of(storm));
  }

  /** A finder for the drains of a site. */
  public static DrainCatchmentFinder of(
      Site site, Terrain terrain, SurfaceWater water, Storm storm) {
    return new DrainCatchmentFinder(site, terrain, water, storm);
  }

  /** A stretch of the drain as the water meets it. */
  private record Stretch(int line, int index, LineSegment segment) {}

  /** The catchment of a drain. */
  public DrainCatchment find(Route route) {
    List<DrainLine> lines = lines(route);
    List<Stretch> stretches = openStretches(lines);
    int[] taker = new int[frame.size()];
    Arrays.fill(taker, UNTRACED);
    double[] away = new double[frame.size()];
    markStretches(stretches, taker);
    List<List<Integer>> pools = new ArrayList<>();
    List<Served> served = markLowSpots(lines, stretches, pools, taker);
    BitSet taken = new BitSet();
    for (int cell = 0; cell < taker.length; cell++) {
      taken.set(cell, taker[cell] >= 0);
    }
    DrainOverflow overflow = DrainOverflow.of(stretches.size(), pools, taker, flow, water.areaM2());
    trace(taker, away);
    return collect(stretches, pools, taker, taken, away, served, overflow);
  }

  /** The main line, then the branches in order. */
  static List<DrainLine> lines(Route route) {
    List<DrainLine> lines = new ArrayList<>();
    lines.add(route.main());
    route.branches().forEach(b -> lines.add(b.line()));
    return lines;
  }

  private static List<Stretch> openStretches(List<DrainLine> lines) {
    List<Stretch> open = new ArrayList<>();
    for (int line = 0; line < lines.size(); line++) {
      List<Station> stations = lines.get(line).stations();
      for (int i = 0; i + 1 < stations.size(); i++) {
        Station up = stations.get(i);
        Station down = stations.get(i + 1);
        if (up.span() == Station.Span.OPEN) {
          open.add(new Stretch(line, i, new LineSegment(up.x(), up.y(), down.x(), down.y())));
        }
      }
    }
    return open;
  }

  private void markStretches(List<Stretch> stretches, int[] taker) {
    double reach = REACH_CELLS * frame.cellM();
    double[] nearest = new double[frame.size()];
    Arrays.fill(nearest, reach);
    for (int s = 0; s < stretches.size(); s++) {
      LineSegment segment = stretches.get(s).segment();
      Envelope around = new Envelope(segment.p0, segment.p1);
      around.expandBy(reach);
      int stretch = s;
      eachCell(
          around,
          (cell, centre) -> {
            double distance = segment.distance(centre);
            if (distance < nearest[cell]) {
              nearest[cell] = distance;
              taker[cell] = stretch;
            }
          });
    }
  }

  /** Cells of a low spot are marked with a number beyond the stretches'; their water is shared. */
  private List<Served> markLowSpots(
      List<DrainLine> lines, List<Stretch> stretches, List<List<Integer>> pools, int[] taker) {
    List<Served> served = new ArrayList<>();
    List<LowSpot> drained = new ArrayList<>();
    for (LowSpot spot : water.lowSpots()) {
      PreparedGeometry outline = PreparedGeometryFactory.prepare(spot.outline());
      if (basins.stream().anyMatch(at -> outline.covers(FACTORY.createPoint(at)))) {
        drained.add(spot);
        continue;
      }
      List<Integer> inside = new ArrayList<>();
      for (int s = 0; s < stretches.size(); s++) {
        if (outline.intersects(stretches.get(s).segment().toGeometry(FACTORY))) {
          inside.add(s);
        }
      }
      if (inside.isEmpty()) {
        continue;
      }
      served.add(served(spot, outline, lines, stretches, inside));
      int pool = stretches.size() + pools.size();
      pools.add(inside);
      mark(spot, outline, pool, taker);
    }
    // Last, so that a low spot within one that has a catch basin is the drain's all the same.
    drained.forEach(
        spot -> mark(spot, PreparedGeometryFactory.prepare(spot.outline()), NOWHERE, taker));
    return served;
  }

  private void mark(LowSpot spot, PreparedGeometry outline, int with, int[] taker) {
    eachCell(
        spot.outline().getEnvelopeInternal(),
        (cell, centre) -> {
          if (taker[cell] == UNTRACED && outline.contains(FACTORY.createPoint(centre))) {
            taker[cell] = with;
          }
        });
  }

  private Served served(
      LowSpot spot,
      PreparedGeometry outline,
      List<DrainLine> lines,
      List<Stretch> stretches,
      List<Integer> inside) {
    double lowest = spot.spillM();
    int line = stretches.get(inside.get(0)).line();
    double at = lines.get(line).stations().get(stretches.get(inside.get(0)).index()).stationM();
    for (int s : inside) {
      Stretch stretch = stretches.get(s);
      double length = stretch.segment().getLength();
      double from = lines.get(stretch.line()).stations().get(stretch.index()).stationM();
      int steps = (int) Math.max(1, Math.ceil(length / frame.cellM() * 2));
      for (int i = 0; i <= steps; i++) {
        Coordinate place = stretch.segment().pointAlong((double) i / steps);
        double z = ground.bilinear(place.x, place.y);
        Point point = FACTORY.createPoint(place);
        if (z < lowest && outline.intersects(point)) {
          lowest = z;
          line = stretch.line();
          at = from + length * i / steps;
        }
      }
    }
    LowSpot.Stage below = stage(spot, lowest);
    return new Served(
        spot.id(), line, at, spot.volumeM3(), below.volumeM3(), below.areaM2(), 0, beyond(spot));
  }

  private double beyond(LowSpot spot) {
    double area = spot.outline().getArea();
    return site.lot().isEmpty() || !(area > 0)
        ? 0
        : spot.outline().difference(site.lot().get().outline()).getArea() / area;
  }

  /** Area and volume of a low spot at a level, between the lines of its table by proportion. */
  static LowSpot.Stage stage(LowSpot spot, double levelM) {
    LowSpot.Stage below = new LowSpot.Stage(spot.bottomM(), 0, 0);
    for (LowSpot.Stage stage : spot.stages()) {
      if (stage.levelM() >= levelM) {
        double rise = stage.levelM() - below.levelM();
        double share = rise > 0 ? Math.max(0, Math.min(1, (levelM - below.levelM()) / rise)) : 0;
        return new LowSpot.Stage(
            levelM,
            below.areaM2() + share * (stage.areaM2() - below.areaM2()),
            below.volumeM3() + share * (stage.volumeM3() - below.volumeM3()));
      }
      below = stage;
    }
    return below;
  }

  private void trace(int[] taker, double[] away) {
    int[] path = new int[frame.size()];
    for (int start = 0; start < taker.length; start++) {
      int length = 0;
      int cell = start;
      while (cell >= 0 && taker[cell] == UNTRACED) {
        path[length++] = cell;
        cell = flow.receiver(cell);
      }
      int takes = cell < 0 ? NOWHERE : taker[cell];
      double distance = cell < 0 ? 0 : away[cell];
      while (length > 0) {
        int above = path[--length];
        distance += cell < 0 ? 0 : flow.stepM(above);
        away[above] = distance;
        taker[above] = takes;
        cell = above;
      }
    }
  }

  private DrainCatchment collect(
      List<Stretch> stretches,
      List<List<Integer>> pools,
      int[] taker,
      BitSet taken,
      double[] away,
      List<Served> servedSpots,
      DrainOverflow overflow) {
    int n = stretches.size() + pools.size();
    double[] area = new double[n];
    double[] effective = new double[n];
    double[] volume = new double[n];
    int[] head = new int[n];
    Arrays.fill(head, -1);
    BitSet cells = new BitSet();
    double beyond = 0;
    PreparedGeometry lot =
        site.lot().map(l -> PreparedGeometryFactory.prepare(l.outline())).orElse(null);
    for (int cell = 0; cell < taker.length; cell++) {
      int s = taker[cell];
      if (s < 0 || flow.toward()[cell] == FlowField.UNKNOWN) {
        continue;
      }
      cells.set(cell);
      area[s] += cover.areaM2(cell);
      effective[s] += cellRunoff.effectiveM2(cell);
      volume[s] += runoffM[cell] * frame.cellAreaM2();
      if (cover.openM2(cell) > 0 && (head[s] < 0 || away[cell] > away[head[s]])) {
        head[s] = cell;
      }
      if (lot != null && !lot.intersects(FACTORY.createPoint(frame.centre(cell)))) {
        beyond += cover.areaM2(cell);
      }
    }
    double[] time = new double[n];
    double totalArea = 0;
    double totalVolume = 0;
    for (int s = 0; s < n; s++) {
      time[s] = area[s] > 0 ? cellRunoff.timeDown(head[s], taken).seconds() : 0;
      totalArea += area[s];
      totalVolume += volume[s];
    }
    List<Served> served = new ArrayList<>();
    for (int p = 0; p < pools.size(); p++) {
      served.add(servedSpots.get(p).withCatchmentM2(area[stretches.size() + p]));
    }
    // What stands in a low spot reaches all stretches in it, the longer the more.
    for (int p = 0; p < pools.size(); p++) {
      int pool = stretches.size() + p;
      double length =
          pools.get(p).stream().mapToDouble(s -> stretches.get(s).segment().getLength()).sum();
      for (int s : pools.get(p)) {
        double share = stretches.get(s).segment().getLength() / length;
        area[s] += share * area[pool];
        effective[s] += share * effective[pool];
        volume[s] += share * volume[pool];
        time[s] = Math.max(time[s], time[pool]);
      }
    }
    List<Share> shares = new ArrayList<>();
    for (int s = 0; s < stretches.size(); s++) {
      if (area[s] > 0) {
        shares.add(
            new Share(
                stretches.get(s).line(),
                stretches.get(s).index(),
                area[s],
                effective[s],
                volume[s],
                time[s],
                overflow.after(s).stream()
                    .map(i -> new Place(stretches.get(i).line(), stretches.get(i).index()))
                    .toList()));
      }
    }
    return new DrainCatchment(shares, taken, cells, totalArea, beyond, totalVolume, served);
  }

  private interface CellVisitor {
    void visit(int cell, Coordinate centre);
  }

  private void eachCell(Envelope within, CellVisitor visitor) {
    int east = Math.min(frame.cols() - 1, frame.col(within.getMaxX()));
    int south = Math.min(frame.rows() - 1, frame.row(within.getMinY()));
    for (int row = Math.max(0, frame.row(within.getMaxY())); row <= south; row++) {
      for (int col = Math.max(0, frame.col(within.getMinX())); col <= east; col++) {
        visitor.visit(row * frame.cols() + col, new Coordinate(frame.x(col), frame.y(row)));
      }
    }
  }
}
