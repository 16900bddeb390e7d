using TransportPlanner.Core.Gas;

namespace TransportPlanner.Web.Gas;

/// <summary>What the gas page asks. Text as typed, so that nothing is lost when a value is refused.</summary>
public sealed class GasForm
{
    /// <summary><c>psi</c>, <c>bar</c> or <c>kPa</c>.</summary>
    public string PressureUnit { get; set; } = "psi";
    public CylinderEntry Oxygen { get; set; } = new();
    public CylinderEntry SecondOxygen { get; set; } = new();
    public CylinderEntry Air { get; set; } = new();
    public CylinderEntry SecondAir { get; set; } = new();
    public string? Flow { get; set; }
    public string? OxygenFraction { get; set; }
    public string? JourneyMinutes { get; set; }

    /// <summary>Minutes after leaving at which a cylinder can be changed: <c>3; 7.5</c>.</summary>
    public string? Stops { get; set; }

    /// <summary>Minutes after leaving at which an elevator is reached.</summary>
    public string? Elevators { get; set; }
    public AirSource AirSource { get; set; }
    public FlowKind FlowIs { get; set; }
    public string? DriveFlow { get; set; }
    public GasKind DriveGas { get; set; }
    public string? Bleed { get; set; }
    public string? Celsius { get; set; }

    public bool HasStops => new[] { Stops, Elevators }.Any(typed => !string.IsNullOrWhiteSpace(typed));
    public bool HasDevice => FlowIs != FlowKind.SetFlow || new[] { DriveFlow, Bleed, Celsius }.Any(typed => !string.IsNullOrWhiteSpace(typed));
}

/// <summary>Turns what was typed on the gas page into the request that the API takes.</summary>
internal static class GasFormReader
{
    /// <summary>Null where something is missing, in <paramref name="missing"/>, or refused, in <paramref name="refused"/>.</summary>
    public static GasSupplyRequest? Read(GasForm form, CylinderChoice choice, Entries refused, Entries missing)
    {
        const decimal MostFlow = (decimal)GasDemand.MaxLitresPerMinute;
        var flow = refused.Number("Flow", "Set flow", form.Flow, (decimal)GasDemand.MinLitresPerMinute, MostFlow, "L/min");
        var fraction = refused.Number("OxygenFraction", "Oxygen fraction (30 percent is 0.30)", form.OxygenFraction, GasDemand.MinOxygenFraction, GasDemand.MaxOxygenFraction, "");
        var journey = refused.Number("JourneyMinutes", "Journey", form.JourneyMinutes, 0.1m, GasRequest.MaxJourneyMinutes, "min");
        var drive = refused.Number("DriveFlow", "Drive gas", form.DriveFlow, 0, MostFlow, "L/min");
        var bleed = refused.Number("Bleed", "Blender bleed", form.Bleed, 0, MostFlow, "L/min");
        var celsius = refused.Number("Celsius", "Cylinder temperature", form.Celsius, GasRequest.MinCelsius, GasRequest.MaxCelsius, "°C");
        missing.Need("Oxygen.Gauge", !form.Oxygen.IsEmpty, "the oxygen gauge and cylinder");
        missing.Need("Flow", !string.IsNullOrWhiteSpace(form.Flow), "the set flow");
        missing.Need("OxygenFraction", !string.IsNullOrWhiteSpace(form.OxygenFraction), "the oxygen fraction");
        CylinderRequest?[] cylinders =
        [
            CylinderEntry.Read("Oxygen", "oxygen", GasKind.Oxygen, form.Oxygen, form.PressureUnit, choice, refused, missing),
            CylinderEntry.Read("SecondOxygen", "second oxygen", GasKind.Oxygen, form.SecondOxygen, form.PressureUnit, choice, refused, missing),
            CylinderEntry.Read("Air", "air", GasKind.Air, form.Air, form.PressureUnit, choice, refused, missing),
            CylinderEntry.Read("SecondAir", "second air", GasKind.Air, form.SecondAir, form.PressureUnit, choice, refused, missing),
        ];
        var timeline = Timeline(form, journey, refused);
        return refused.Problems.Count + missing.Problems.Count > 0
            ? null
            : new()
            {
                JourneyMinutes = journey,
                Demand = new()
                {
                    FlowLitresPerMinute = flow!.Value,
                    OxygenFraction = fraction!.Value,
                    FlowIs = form.FlowIs,
                    DriveGasLitresPerMinute = drive ?? 0,
                    DriveGas = form.DriveGas,
                    BleedLitresPerMinute = bleed ?? 0,
                    AirSource = form.AirSource,
                },
                Cylinders = [.. cylinders.OfType<CylinderRequest>()],
                CylinderTemperatureCelsius = celsius,
                Timeline = timeline,
            };
    }

    /// <summary>The journey cut at the stops and elevators; empty where none is given.</summary>
    private static List<JourneyStretchRequest> Timeline(GasForm form, decimal? journey, Entries refused)
    {
        var given = new[] { ("Stops", "Stop", form.Stops), ("Elevators", "Elevator", form.Elevators) }.Where(field => !string.IsNullOrWhiteSpace(field.Item3)).ToList();
        if (given.Count == 0)
            return [];
        if (journey is not { } minutes)
        {
            refused.Need("JourneyMinutes", refused.Has("JourneyMinutes"), "Journey: stops and elevators need the minutes of the journey.");
            return [];
        }

        List<(decimal Minute, bool IsElevator)> points = [];
        foreach (var (field, name, typed) in given)
        {
            points.AddRange(typed!.Split([';', ' '], StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries)
                .Select(text => refused.Number(field, name, text.TrimEnd(','), 0.1m, minutes, "min")).OfType<decimal>().Select(minute => (minute, field == "Elevators")));
        }

        // A stop at the minute of an elevator is the landing before it.
        points.Sort();
        List<JourneyStretchRequest> stretches = [new() { Name = "leaving", Minutes = points.Count > 0 ? points[0].Minute : minutes, ChangeOver = ChangeOverPlace.Impossible }];
        for (var i = 0; i < points.Count; i++)
        {
            var (minute, isElevator) = points[i];
            stretches.Add(new()
            {
                Name = FormattableString.Invariant($"the {(isElevator ? "elevator" : "stop")} at minute {minute:0.##}"),
                Minutes = (i + 1 < points.Count ? points[i + 1].Minute : minutes) - minute,
                ChangeOver = isElevator ? ChangeOverPlace.Impossible : ChangeOverPlace.Possible,
                Elevator = isElevator,
            });
        }

        return stretches;
    }
}
