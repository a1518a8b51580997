package org.yardfall.route;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.yardfall.site.Outlet;
import org.yardfall.site.Site;

/** What a drain's outlet asks of its place; ties and permits are told with the drain's end. */
final class OutletCautions {

  private OutletCautions() {}

  /** What the builder must be told about an outlet that is allowed. */
  static List<String> of(Site site, Outlet outlet, double endInvertM) {
    List<String> all = new ArrayList<>();
    String head = "outlet " + outlet.id() + ": ";
    switch (outlet.kind()) {
      case CATCH_BASIN -> {} // the tie-in is told with the built drain's end
      case STREET ->
          all.add(head + "cutting a curb needs the street owner's permit; ice in winter");
      case DITCH, WATERWAY ->
          all.add(
              head
                  + "needs the leave of whoever keeps it; set the pipe's end above its usual level:"
                  + " constant submergence silts it up");
      case DAYLIGHT ->
          all.add(
              head
                  + "screen the end against animals and spread the flow on stone; the ground below"
                  + " it gets wetter");
      case DRY_WELL -> {
        all.add(head + "prove the soil by a percolation test at the depth of the well");
        if (site.soil().waterTableM(endInvertM).isEmpty()) {
          all.add(
              head
                  + "whether groundwater stands in the well cannot be said, the water table not"
                  + " being known; the pit of that test shows it in the wet season");
        }
      }
    }
    if (!site.outletRules().pumped()) {
      all.addAll(standing(outlet, endInvertM, head));
    }
    if (outlet.kind() == Outlet.Kind.DAYLIGHT && site.parcels().size() < 2) {
      all.add(head + "no neighbouring parcel was given, so whose ground it runs to is not known");
    }
    return all;
  }

  /** What the water that stands in the outlet does to a drain that runs out by gravity. */
  private static List<String> standing(Outlet outlet, double endInvertM, String head) {
    List<String> all = new ArrayList<>();
    boolean piped = outlet.kind() == Outlet.Kind.CATCH_BASIN;
    double usual = outlet.usualLevelM().orElse(Double.NEGATIVE_INFINITY);
    if (usual > endInvertM) {
      all.add(
          String.format(
              Locale.ROOT,
              "%sits usual water stands %.2f m above the pipe's end, which is then always under"
                  + " water and silts up: end the pipe at %.2f m or higher",
              head,
              usual - endInvertM,
              usual));
    }
    if (outlet.waterLevelM().isEmpty()) {
      if (piped || outlet.kind() == Outlet.Kind.DITCH || outlet.kind() == Outlet.Kind.WATERWAY) {
        all.add(
            head
                + "its water level in a storm is not known, so whether water backs up the pipe was"
                + " not checked");
      }
    } else if (outlet.waterLevelM().getAsDouble() > endInvertM) {
      all.add(
          String.format(
              Locale.ROOT,
              "%sin the storm its water stands %.2f m above the pipe's end, which then drains"
                  + " slower; consider a flap, which must be kept clean",
              head,
              outlet.waterLevelM().getAsDouble() - endInvertM));
    }
    return all;
  }
}
