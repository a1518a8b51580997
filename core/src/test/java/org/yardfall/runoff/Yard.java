package org.yardfall.runoff;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.OptionalDouble;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.Polygon;
import org.locationtech.jts.io.ParseException;
import org.locationtech.jts.io.WKTReader;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.elevation.GridFrame;
import org.yardfall.elevation.Terrain;
import org.yardfall.site.Building;
import org.yardfall.site.Given;
import org.yardfall.site.MadeUpSite;
import org.yardfall.site.Parcel;
import org.yardfall.site.Site;
import org.yardfall.site.Surface;
import org.yardfall.water.DepressionHierarchy;
import org.yardfall.water.FlowField;
import org.yardfall.water.LowSpot;
import org.yardfall.water.SurfaceWater;
import org.yardfall.water.SurfaceWaterFinder;

/** An invented yard, drawn: one arrow a cell says where its water goes. */
final class Yard {

  private static final String ARROWS = "→↗↑↖←↙↓↘.?";

  final FlowField flow;
  private final double fallPerCellM;
  private final List<Parcel> parcels = new ArrayList<>();
  private final List<Building> buildings = new ArrayList<>();
  private final List<Surface> surfaces = new ArrayList<>();
  private final List<LowSpot> lowSpots = new ArrayList<>();
  private Parcel lot;
  private char group = 'D';
  private final BitSet edge = new BitSet();

  private Yard(FlowField flow, double fallPerCellM) {
    this.flow = flow;
    this.fallPerCellM = fallPerCellM;
  }

  /** A yard of cells of the given size, its south-west corner at the origin. */
  static Yard drawn(double cellM, double slope, String... rows) {
    int cols = rows[0].length();
    byte[] toward = new byte[cols * rows.length];
    for (int r = 0; r < rows.length; r++) {
      for (int c = 0; c < cols; c++) {
        toward[r * cols + c] = (byte) ARROWS.indexOf(rows[r].charAt(c));
      }
    }
    GridFrame frame = new GridFrame(cols, rows.length, 0, rows.length * cellM, cellM);
    return new Yard(new FlowField(frame, toward), slope * cellM);
  }

  /** A slope to the south of the given size. */
  static Yard slope(int cols, int rows, double cellM, double slope) {
    String[] drawn = new String[rows];
    for (int r = 0; r < rows; r++) {
      drawn[r] = (r == rows - 1 ? "." : "↓").repeat(cols);
    }
    return drawn(cellM, slope, drawn);
  }

  Yard lot(String id, String wkt) {
    lot = new Parcel(id, polygon(wkt));
    parcels.add(lot);
    return this;
  }

  Yard parcel(String id, String wkt) {
    parcels.add(new Parcel(id, polygon(wkt)));
    return this;
  }

  Yard building(String wkt) {
    buildings.add(new Building("B" + buildings.size(), polygon(wkt), OptionalDouble.empty()));
    return this;
  }

  Yard surface(Surface.Kind kind, String wkt) {
    surfaces.add(new Surface(kind, geometry(wkt)));
    return this;
  }

  Yard soil(char newGroup) {
    group = newGroup;
    return this;
  }

  Yard edge(int cell) {
    edge.set(cell);
    return this;
  }

  Yard lowSpot(LowSpot spot) {
    lowSpots.add(spot);
    return this;
  }

  Site site() {
    return MadeUpSite.site()
        .lot(lot)
        .parcels(parcels)
        .buildings(buildings)
        .surfaces(surfaces)
        .soil(Given.soil(group))
        .storm(Given.storm(0.1))
        .drain(Given.limits(0.01, 0.2, 0.15, 1.2, 0.6, 0.9, 0.45, 0.11, 0.1))
        .elevation(Given.elevation(Path.of("x.tif")))
        .make();
  }

  Terrain terrain() {
    return new Terrain(
        new ElevationGrid(flow.frame(), heights()),
        List.of(),
        0.1,
        true,
        0,
        "",
        List.of(),
        List.of());
  }

  SurfaceWater water() {
    float[] z = heights();
    double[] area = new double[z.length];
    double cell = flow.frame().cellAreaM2();
    for (int c : LotFlow.downstreamOrder(flow)) {
      if (flow.toward()[c] != FlowField.UNKNOWN) {
        area[c] += cell;
        if (flow.receiver(c) >= 0) {
          area[flow.receiver(c)] += area[c];
        }
      }
    }
    ElevationGrid ground = new ElevationGrid(flow.frame(), z);
    return new SurfaceWater(
        ground,
        z,
        flow,
        area,
        edge,
        lowSpots,
        List.of(),
        List.of(),
        new BitSet(),
        SurfaceWaterFinder.find(terrain(), site()).roofs(),
        List.of(),
        DepressionHierarchy.of(ground),
        new int[0],
        List.of(),
        List.of());
  }

  /** Heights that fall by the same amount along each step, diagonal steps by as much more. */
  private float[] heights() {
    int[] order = LotFlow.downstreamOrder(flow);
    float[] z = new float[order.length];
    for (int i = order.length - 1; i >= 0; i--) {
      int c = order[i];
      int r = flow.receiver(c);
      boolean straight = r >= 0 && (Math.abs(c - r) == 1 || Math.abs(c - r) == flow.frame().cols());
      z[c] =
          flow.toward()[c] == FlowField.UNKNOWN
              ? Float.NaN
              : r < 0 ? 0 : z[r] + (float) (fallPerCellM * (straight ? 1 : Math.sqrt(2)));
    }
    return z;
  }

  static Polygon polygon(String wkt) {
    return (Polygon) geometry(wkt);
  }

  static Geometry geometry(String wkt) {
    try {
      return new WKTReader().read(wkt);
    } catch (ParseException e) {
      throw new IllegalArgumentException(e);
    }
  }
}
