package org.yardfall.layer;

import static org.yardfall.layer.JsonText.AREA;
import static org.yardfall.layer.JsonText.FLOW;
import static org.yardfall.layer.JsonText.VOLUME;

import java.io.IOException;
import org.yardfall.runoff.DrainEffect;
import org.yardfall.runoff.InflowLedger;

/** What a route changes across the property line, in {@code results.json}. */
final class EffectJson {

  private final JsonText json;

  EffectJson(JsonText json) {
    this.json = json;
  }

  void write(DrainEffect effect) throws IOException {
    json.open("effect")
        .number("takenM2", effect.captured().areaM2(), AREA)
        .number("takenM3", effect.capturedM3(), VOLUME)
        .number("takenPeakM3s", effect.captured().peakM3S(), FLOW)
        .flag("anyRises", effect.anyRises());
    writeBalance(effect.after().balance());
    json.objects(
        "stretches",
        effect.stretches(),
        change -> {
          json.text("id", change.before().id())
              .text("direction", change.before().enters() ? "in" : "out")
              .text("neighbour", change.before().neighbour());
          areas(change.before().areaM2(), change.afterM2());
          volumes(change.before().volumeM3(), change.afterM3());
          peaks(change.before().peakM3S(), change.afterPeakM3S());
        });
    json.objects(
        "neighbours",
        effect.neighbours(),
        change -> {
          json.text("neighbour", change.neighbour()).flag("rises", change.rises());
          areas(change.beforeM2(), change.afterM2());
          volumes(change.beforeM3(), change.afterM3());
          peaks(change.beforePeakM3S(), change.afterPeakM3S());
          json.number("beforePerMetreM2", change.beforePerMetreM2(), VOLUME)
              .number("afterPerMetreM2", change.afterPerMetreM2(), VOLUME);
        });
    json.end();
  }

  /** The lot's balance of water. */
  void writeBalance(InflowLedger.Balance balance) throws IOException {
    json.open("balance")
        .number("inflowM3", balance.inflowM3(), VOLUME)
        .number("ownRainM3", balance.ownRainM3(), VOLUME)
        .number("outflowM3", balance.outflowM3(), VOLUME)
        .number("standingM3", balance.standingM3(), VOLUME)
        .number("infiltratedM3", balance.infiltratedM3(), VOLUME)
        .number("drainedM3", balance.drainedM3(), VOLUME)
        .number("heldBeyondM3", balance.heldBeyondM3(), VOLUME)
        .number("inletM3", balance.inletM3(), VOLUME)
        .end();
  }

  private void areas(double before, double after) throws IOException {
    json.number("beforeM2", before, AREA).number("afterM2", after, AREA);
  }

  private void volumes(double before, double after) throws IOException {
    json.number("beforeM3", before, VOLUME).number("afterM3", after, VOLUME);
  }

  private void peaks(double before, double after) throws IOException {
    json.number("beforePeakM3s", before, FLOW).number("afterPeakM3s", after, FLOW);
  }
}
