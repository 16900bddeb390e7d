using System.Text.Json;
using System.Text.Json.Serialization;
using TransportPlanner.Core.FloorPlans;
using TransportPlanner.Core.Precautions;

namespace TransportPlanner.Benchmarks;

/// <summary>Requests of every kind for one floor plan, as JSON bodies, alike for the same seed. Journeys go between rooms where an infant may be.</summary>
internal sealed class MixedRequests(FloorPlan plan, int seed)
{
    private static readonly JsonSerializerOptions Json = new(JsonSerializerDefaults.Web)
    {
        DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
        Converters = { new JsonStringEnumConverter(JsonNamingPolicy.CamelCase) },
    };

    // A Monday. All quarter-hours of the week after it occur: nights, shift changes, visiting hours.
    private static readonly DateTimeOffset Monday = new(2026, 5, 4, 0, 0, 0, TimeSpan.Zero);

    private readonly Random _random = new(seed);
    private readonly string[] _rooms =
    [
        .. from place in plan.Places
           where place.Kind is PlaceKind.Room or PlaceKind.DeliveryRoom or PlaceKind.OperatingRoom or PlaceKind.IsolationRoom
               or PlaceKind.NeonatalIntensiveCare or PlaceKind.WardRoom or PlaceKind.Imaging
           select place.Number,
    ];

    /// <summary>Bodies of POST /routes, with the assumed incubator or one of another width in metres.</summary>
    public string[] Routes(int count, double? width = null) => [.. Enumerable.Range(0, count).Select(_ =>
    {
        var (from, to) = Pair();
        return Body(new { siteId = plan.SiteId, from, to, departAt = Departure(), precautions = Precautions(), heldElevators = Often(), withHelper = Often(), conveyance = width is null ? null : new { lengthMetres = 1.2, widthMetres = width, heightMetres = 1.4, massKilograms = 140 } });
    })];

    /// <summary>Bodies of POST /plans: every support, one to three precautions, no cylinder to three, figures of demand and infant given or not.</summary>
    public string[] Plans(int count) => [.. Enumerable.Range(0, count).Select(_ =>
    {
        var (from, to) = Pair();
        return Body(new
        {
            siteId = plan.SiteId,
            from,
            to,
            departAt = Departure(),
            support = Any(Enum.GetValues<RespiratorySupport>()),
            precautions = Precautions(),
            cylinders = Enumerable.Range(0, _random.Next(4)).Select(_ => Cylinder()).ToArray(),
            demand = Often() ? new { flowLitresPerMinute = _random.Next(1, 13), oxygenFraction = _random.Next(21, 101) / 100.0 } : null,
            weightGrams = Often() ? _random.Next(400, 5000) : (int?)null,
            gestationWeeks = Often() ? _random.Next(23, 43) : (int?)null,
            heldElevators = Often(),
            withHelper = Often(),
        });
    })];

    private (string From, string To) Pair()
    {
        var from = Any(_rooms);
        var to = Any(_rooms);
        return from == to ? Pair() : (from, to);
    }

    private DateTimeOffset Departure() => Monday.AddMinutes(15 * _random.Next(7 * 24 * 4));

    private string[] Precautions()
    {
        string[] all = ["contact", "droplet", "airborne"];
        _random.Shuffle(all);
        return all[.._random.Next(1, 4)];
    }

    private object Cylinder() => _random.Next(4) switch
    {
        0 => new { gas = "oxygen", sizeId = "US-E", gaugePsi = _random.Next(300, 2200) },
        1 => new { gas = "oxygen", waterCapacityLitres = 2, gaugeBar = _random.Next(30, 200), residualBar = 14 },
        2 => new { gas = "oxygen", sizeId = "US-D", gaugePsi = _random.Next(300, 2200), residualPsi = 200 },
        _ => new { gas = "air", waterCapacityLitres = 2, gaugeBar = _random.Next(30, 200) },
    };

    private bool Often() => _random.Next(2) == 0;

    private T Any<T>(T[] values) => values[_random.Next(values.Length)];

    private static string Body(object request) => JsonSerializer.Serialize(request, Json);
}
