namespace TransportPlanner.Core.Gas;

/// <summary>What one cylinder holds above its residual.</summary>
/// <param name="Litres">The smaller of trade and real-gas figure, rounded down to a thousandth.</param>
/// <param name="Working">With the numbers put in.</param>
public sealed record UsableGas(decimal Litres, string Working)
{
    /// <param name="cylinder">Which cylinder.</param>
    /// <param name="celsius">Its temperature, −20 to 50 °C.</param>
    public static UsableGas Of(Cylinder cylinder, decimal celsius = GasRequest.AssumedCelsius)
    {
        var amount = CylinderAmount.Of(cylinder, celsius);
        return new(amount.Litres.Down(3), amount.Working);
    }
}
