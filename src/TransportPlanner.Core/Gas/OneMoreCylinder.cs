namespace TransportPlanner.Core.Gas;

/// <summary>What one more cylinder like the last of its gas, at the same reading, would change.</summary>
/// <param name="Gas">Which gas.</param>
/// <param name="Like">The cylinder that is taken twice, by its place in the request, from 1.</param>
/// <param name="Minutes">Of the supply then, rounded down; null where no cylinder is drawn.</param>
/// <param name="OxygenAloneMinutes">Of oxygen alone then.</param>
/// <param name="Rules">Each rule judged again; empty without a journey.</param>
public sealed record OneMoreCylinder(GasKind Gas, int Like, long? Minutes, long OxygenAloneMinutes, IReadOnlyList<RuleVerdict> Rules)
{
    /// <summary>One answer for each gas of which a cylinder is given and drawn; oxygen counts as drawn, since oxygen alone is judged too.</summary>
    public static IReadOnlyList<OneMoreCylinder> For(GasRequest request)
    {
        List<OneMoreCylinder> answers = [];
        foreach (var gas in Enum.GetValues<GasKind>())
        {
            var last = request.Cylinders.Select((cylinder, i) => (Cylinder: cylinder, Number: i + 1)).LastOrDefault(pair => pair.Cylinder.Gas == gas);
            if (last.Cylinder is null || (gas == GasKind.Air && (request.Demand.AirSource != AirSource.Cylinder || !request.Demand.ExactFlowOf(gas).IsPositive)))
                continue;
            var then = GasSupply.For(request with { Cylinders = [.. request.Cylinders, last.Cylinder] });
            answers.Add(new(gas, last.Number, then.Minutes, then.OxygenAlone.Minutes, then.Rules));
        }

        return answers;
    }
}
