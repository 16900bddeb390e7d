namespace TransportPlanner.Core.Tests.Architecture;

public static class Findings
{
    /// <summary>Fails with every finding in full, one a line.</summary>
    public static void None(IEnumerable<string> findings)
    {
        var found = findings.Distinct().ToList();
        Assert.True(found.Count == 0, string.Join(Environment.NewLine, found));
    }
}
