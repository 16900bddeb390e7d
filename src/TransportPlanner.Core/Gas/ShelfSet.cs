namespace TransportPlanner.Core.Gas;

/// <summary>Which cylinders of a shelf a journey needs, or of which gas there is too little. A shortage is an answer.</summary>
public abstract record ShelfSet
{
    private const int LitreDecimals = 6;

    private ShelfSet()
    {
    }

    /// <summary>The fewest cylinders of each gas that meet every rule; among as few, those with the least gas, so that the full ones stay.</summary>
    /// <param name="Places">Places in the list that was given, from 0, rising.</param>
    /// <param name="Supply">The supply with these cylinders: its rules are all met.</param>
    public sealed record Found(IReadOnlyList<int> Places, GasSupply Supply) : ShelfSet;

    /// <summary>All cylinders of a gas together are not enough.</summary>
    /// <param name="Gas">The gas.</param>
    /// <param name="NeededLitres">What the strictest rule asks for, rounded up to a thousandth.</param>
    /// <param name="ThereLitres">What the shelf holds above the residuals, rounded down.</param>
    /// <param name="Working">How the need comes about.</param>
    public sealed record TooLittle(GasKind Gas, decimal NeededLitres, decimal ThereLitres, string Working) : ShelfSet;

    /// <summary>Rules are judged as for any supply: on the lesser of the supply and oxygen alone, in whole minutes.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A figure of the request is out of its range, or no journey was given.</exception>
    /// <param name="request">Demand, journey and rules; its cylinders are the shelf.</param>
    public static ShelfSet Smallest(GasRequest request)
    {
        request.Validate();
        var journey = request.Journey ?? throw new ArgumentOutOfRangeException(nameof(request), "Give the minutes of the journey.");
        var strictest = request.Rules.MaxBy(rule => rule.RequiredMinutes(journey))!;
        var minutes = decimal.Ceiling(strictest.RequiredMinutes(journey));
        List<int> places = [];
        foreach (var gas in Enum.GetValues<GasKind>())
        {
            var flow = FlowOf(gas, request.Demand);
            if (!flow.IsPositive)
                continue;
            var need = flow * minutes;
            var held = request.Cylinders.Index().Where(pair => pair.Item.Gas == gas)
                .Select(pair => (Place: pair.Index, Litres: CylinderAmount.Of(pair.Item, request.CylinderCelsius ?? GasRequest.AssumedCelsius).Litres.Down(LitreDecimals)))
                .Where(pair => pair.Litres > 0).OrderByDescending(pair => pair.Litres).ThenBy(pair => pair.Place).ToList();
            if (Fewest(held, need.Up(LitreDecimals)) is not { } chosen)
            {
                return new TooLittle(
                    gas, need.Up(3), ((Rational)held.Sum(pair => pair.Litres)).Down(3),
                    $"{strictest.WorkingOf(journey)}; {GasText.Number(minutes)} min × {GasText.Number(flow, 6)} L/min = {GasText.Number(need)} L");
            }

            places.AddRange(chosen);
        }

        places.Sort();
        return new Found(places, GasSupply.For(request with { Cylinders = [.. places.Select(place => request.Cylinders[place])] }));
    }

    /// <summary>Oxygen must also last at the full flow and fraction 1.0, since the rules are judged on that too.</summary>
    private static Rational FlowOf(GasKind gas, GasDemand demand) => gas == GasKind.Oxygen
        ? Rational.Max(demand.ExactFlowOf(gas), demand.OxygenAloneFlow)
        : demand.AirSource == AirSource.Cylinder ? demand.ExactFlowOf(gas) : Rational.Zero;

    /// <param name="held">The most litres first.</param>
    /// <param name="need">Litres.</param>
    private static List<int>? Fewest(List<(int Place, decimal Litres)> held, decimal need)
    {
        var (count, sum) = (0, 0m);
        while (sum < need)
        {
            if (count == held.Count)
                return null;
            sum += held[count++].Litres;
        }

        var (best, least, picked) = (new List<int>(), decimal.MaxValue, new List<int>());
        Pick(0, 0m);
        return best;

        void Pick(int from, decimal litres)
        {
            if (picked.Count == count)
            {
                if (litres >= need && litres < least)
                    (best, least) = ([.. picked], litres);
                return;
            }

            for (var i = from; i <= held.Count - (count - picked.Count); i++)
            {
                // From here on no pick holds more than this one: with it for each that is still to come it must be enough.
                if (litres + held[i].Litres * (count - picked.Count) < need || litres >= least)
                    return;
                picked.Add(held[i].Place);
                Pick(i + 1, litres + held[i].Litres);
                picked.RemoveAt(picked.Count - 1);
            }
        }
    }
}
