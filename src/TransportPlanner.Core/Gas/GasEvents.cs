namespace TransportPlanner.Core.Gas;

/// <summary>What ends when on a journey, and what then happens, in sentences.</summary>
internal static class GasEvents
{
    internal static IReadOnlyList<string> Of(GasRequest request, IReadOnlyList<GasTrack> tracks, Rational journey)
    {
        var (oxygen, air) = (tracks[0], tracks[1]);
        List<string> events = [];
        var drawn = tracks.Where(track => track.End is not null).OrderBy(track => track.End!.Value).ToList();
        foreach (var track in drawn)
        {
            var isOxygen = track == oxygen;
            var otherGoesOn = isOxygen ? !air.IsFromCylinders || air.End is { } airEnd && airEnd > track.End!.Value : oxygen.End is { } end && end > track.End!.Value;
            var when = $"{(isOxygen ? "Oxygen" : "Air")}{track.WhichCylinders} ends at minute {GasText.Number(track.End!.Value.Down(1))}, at the low end of the band at minute "
                + $"{GasText.Number(track.EndLow!.Value.Down(1))}{(track.EndLow >= journey ? ", after the journey" : "")}";
            events.Add($"{when}: {Then(request.Demand, isOxygen, otherGoesOn)}");
        }

        return events;
    }

    private static string Then(GasDemand demand, bool oxygenEnds, bool otherGoesOn)
    {
        var drives = demand.DriveFlow > default(Units.GasFlow) && (demand.DriveGas == GasKind.Oxygen) == oxygenEnds;
        var device = drives ? " It also drives the device, which then stops." : "";
        return !otherGoesOn ? $"then nothing flows.{device}"
            : oxygenEnds ? $"a blender then passes air alone at the full flow, fraction 0.21.{device}"
            : $"a blender then passes oxygen alone at the full flow, {GasText.Number(demand.OxygenAloneFlow)} L/min at fraction 1.0, counted from there; without a blender only "
                + $"the oxygen's own flow is left.{device}";
    }
}
