package org.yardfall.layer;

import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import java.util.Map;
import org.locationtech.jts.geom.Polygon;
import org.yardfall.elevation.ElevationGrid;
import org.yardfall.elevation.GridFrame;
import org.yardfall.runoff.CurveNumber;
import org.yardfall.runoff.InflowLedger;
import org.yardfall.runoff.MadeUpFlow;
import org.yardfall.runoff.Storm;
import org.yardfall.site.Assumption;
import org.yardfall.site.Surface;
import org.yardfall.water.AlteredCell;
import org.yardfall.water.Catchment;
import org.yardfall.water.DepressionHierarchy;
import org.yardfall.water.FlowField;
import org.yardfall.water.FlowPath;
import org.yardfall.water.LowSpot;
import org.yardfall.water.RoofRunoff;
import org.yardfall.water.StandingWater;
import org.yardfall.water.SurfaceWater;

/** What the water is said to do on the lot of {@link ResultFixture}: drawn by hand, not found. */
final class InventedWater {

  private final InventedLot lot;

  InventedWater(InventedLot lot) {
    this.lot = lot;
  }

  SurfaceWater water(ElevationGrid ground) {
    GridFrame frame = ground.frame();
    byte[] south = new byte[frame.size()];
    Arrays.fill(south, (byte) 6);
    Arrays.fill(south, frame.size() - frame.cols(), frame.size(), FlowField.LEAVES);
    double[] area = new double[frame.size()];
    float[] filled = ground.z().clone();
    for (int cell = 0; cell < area.length; cell++) {
      area[cell] = (cell / frame.cols() + 1) * frame.cellAreaM2();
      double fromDip =
          Math.hypot(
              frame.x(cell % frame.cols()) - lot.x0 - 30,
              frame.y(cell / frame.cols()) - lot.y0 - 25);
      if (fromDip < InventedLot.DIP_RADIUS_M) {
        filled[cell] = Math.max(filled[cell], 241.9f);
      }
    }
    Polygon dip = lot.circle(30, 25, 4);
    return new SurfaceWater(
        ground,
        filled,
        new FlowField(frame, south),
        area,
        new BitSet(),
        List.of(
            new LowSpot(
                "L1",
                dip,
                lot.at(30, 25),
                241.65,
                241.9,
                lot.at(33, 21),
                0.25,
                dip.getArea(),
                dip.getArea() * 0.12,
                410,
                true,
                "",
                List.of(),
                "",
                List.of(
                    new LowSpot.Stage(241.7, 4, 0.1),
                    new LowSpot.Stage(241.9, dip.getArea(), dip.getArea() * 0.12)),
                "")),
        List.of(new FlowPath("F1", lot.line(30, 58, 30, 29), 380, true, false)),
        List.of(
            new Catchment(
                "C1",
                "lot",
                lot.box(-5, -5, ResultFixture.WIDTH_M + 5, ResultFixture.HEIGHT_M + 8),
                4410,
                "north"),
            new Catchment("C2", "L1", ring(), ring().getArea(), "")),
        new BitSet(),
        RoofRunoff.none(),
        List.of(new AlteredCell("K1", 0, ground.z()[0] + 0.3f, ground.z()[0])),
        DepressionHierarchy.of(ground),
        new int[0],
        List.of(new Assumption("elevation.accuracy", "0.10 m", "site file")),
        List.of("catchment cut off to the north: extend the raster by about 20 m"));
  }

  StandingWater standing() {
    Polygon pond = lot.circle(30, 25, 3);
    return new StandingWater(
        List.of(
            new StandingWater.Pond(
                "L1", pond, 241.85, 0.2, pond.getArea(), pond.getArea() * 0.1, 1.25, "")),
        364,
        120.5,
        pond.getArea() * 0.1,
        364 - 120.5 - pond.getArea() * 0.1,
        0,
        List.of());
  }

  StandingWater blocked() {
    Polygon pond = lot.circle(30, 25, 4);
    return new StandingWater(
        List.of(
            new StandingWater.Pond(
                "L1", pond, 241.9, 0.25, pond.getArea(), pond.getArea() * 0.12, 2.5, "")),
        364,
        120.5,
        pond.getArea() * 0.12,
        364 - 120.5 - pond.getArea() * 0.12,
        0,
        List.of());
  }

  InflowLedger ledger() {
    return new InflowLedger(
        Storm.of(lot.site().storm()),
        List.of(
            MadeUpFlow.of(
                "I1",
                true,
                lot.neighbourId,
                lot.line(20, ResultFixture.HEIGHT_M, 40, ResultFixture.HEIGHT_M),
                lot.at(31, ResultFixture.HEIGHT_M),
                180,
                20,
                405,
                true,
                12.5,
                0.00421,
                "lawn 310 m2, roof 95 m2")),
        List.of(
            MadeUpFlow.of(
                "O1",
                false,
                "",
                lot.line(ResultFixture.WIDTH_M, 5, ResultFixture.WIDTH_M, 15),
                lot.at(ResultFixture.WIDTH_M, 9),
                95.5,
                10,
                900,
                false,
                24.25,
                0.0085,
                "lawn 900 m2")),
        new InflowLedger.Balance(12.5, 195, 24.25, 2.5, 180.75, 0, 0, 0),
        CurveNumber.runoff(
            Map.of(Surface.Kind.LAWN, 3000.0), CurveNumber.byCover('D', Map.of()), 0.065),
        List.of(new Assumption("runoff.surfaces", "lawn", "common practice, no source")),
        List.of("inflow I1 is a lower bound"));
  }

  /** An area with a hole. */
  private Polygon ring() {
    return (Polygon) lot.circle(30, 30, 12).difference(lot.circle(30, 38, 2));
  }
}
