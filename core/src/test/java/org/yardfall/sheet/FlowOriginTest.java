package org.yardfall.sheet;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.GeometryFactory;
import org.yardfall.runoff.BoundaryFlow;
import org.yardfall.runoff.CurveNumber;
import org.yardfall.runoff.TimeOfConcentration;
import org.yardfall.site.UnitSystem;

/** Water that crosses the line from a parcel need not have fallen on it. */
class FlowOriginTest {

  @Test
  void groundBeyondTheNextParcelIsNamedLargestFirst() {
    BoundaryFlow flow = flow(true, Map.of("1", 420.0, "hill", 1334.0, "", 1668.0, "3", 8.0));
    assertEquals(
        "Of the 3430 m² that drain there 420 m² are parcel 1 itself; through it comes the water of"
            + " ground in no parcel 1668 m², parcel hill 1334 m². ",
        FlowOrigin.sentence(flow, UnitSystem.METRIC, id -> id));
    assertEquals(
        " (through it ground in no parcel 17954 ft², parcel hill 14359 ft²)",
        FlowOrigin.note(flow, UnitSystem.US, id -> id));
  }

  @Test
  void nothingIsSaidWhereAllFellNextDoorOrTheWaterLeaves() {
    for (BoundaryFlow flow :
        List.of(
            flow(true, Map.of("1", 100.0, "3", 1.0)),
            flow(false, Map.of("1", 100.0, "3", 50.0)),
            flow(true, Map.of()))) {
      assertEquals("", FlowOrigin.sentence(flow, UnitSystem.METRIC, id -> id));
      assertEquals("", FlowOrigin.note(flow, UnitSystem.METRIC, id -> id));
    }
  }

  private static BoundaryFlow flow(boolean enters, Map<String, Double> parcels) {
    Coordinate[] line = {new Coordinate(0, 0), new Coordinate(1, 0)};
    return new BoundaryFlow(
        "I1",
        enters,
        "1",
        new GeometryFactory().createLineString(line),
        line[0],
        90,
        1,
        parcels.values().stream().mapToDouble(a -> a).sum(),
        false,
        10,
        0.01,
        "",
        true,
        parcels,
        new CurveNumber.Runoff(List.of(), 0, 0),
        new TimeOfConcentration(List.of(), 0, 0),
        0,
        0,
        List.of());
  }
}
