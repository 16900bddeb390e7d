using CsCheck;
using NetTopologySuite.Geometries;
using NetTopologySuite.Geometries.Prepared;
using NetTopologySuite.Operation.Buffer;
using TransportPlanner.Core.Tests.Reference;
using TransportPlanner.Core.Travel;

namespace TransportPlanner.Core.Tests.Travel;

public sealed class CornerFitTests
{
    private static readonly Dictionary<string, IReadOnlyDictionary<string, string>> Cases =
        ReferenceFile.Rows("corner-fit-cases.csv").ToDictionary(row => row["id"]);

    public static TheoryData<string> Ids() => [.. Cases.Keys];

    /// <summary>corner-fit-cases.csv, every row; derived there by the minimum over the angle and confirmed by brute force.</summary>
    [Theory]
    [MemberData(nameof(Ids))]
    public void Corners_agree_with_the_reference_rows(string id)
    {
        var row = Cases[id];
        double Of(string column) => row.Number(column);

        switch (row["kind"])
        {
            case "max_length":
                Assert.Equal(Of("expected"), CornerFit.LongestBox(Of("corridor_a_m"), Of("corridor_b_m"), Of("box_width_m")), Of("tolerance"));
                break;
            case "spin_circle":
                Assert.Equal(Of("expected"), CornerFit.SpinCircle(Of("box_length_m"), Of("box_width_m")), Of("tolerance"));
                break;
            case "passes":
                Assert.Equal(row["expected"] == "yes", CornerFit.Passes(Of("corridor_a_m"), Of("corridor_b_m"), Of("box_length_m"), Of("box_width_m")));
                break;
            case "sideways":
                Assert.Equal(row["expected"] == "yes", CornerFit.PassesSideways(Of("corridor_a_m"), Of("corridor_b_m"), Of("box_length_m"), Of("box_width_m")));
                Assert.False(CornerFit.Passes(Of("corridor_a_m"), Of("corridor_b_m"), Of("box_length_m"), Of("box_width_m")));
                break;
            default:
                Assert.Fail($"No function for {row["kind"]}.");
                break;
        }
    }

    // Second opinion: push the box through the corner in small steps and ask the geometry library whether it stays inside.
    [Fact]
    public void The_longest_box_turns_and_a_longer_one_does_not() =>
        (from a in Gen.Double[0.9, 3]
         from b in Gen.Double[0.9, 3]
         from w in Gen.Double[0.4, 0.85]
         select (a, b, w)).Sample(
            c =>
            {
                var longest = CornerFit.LongestBox(c.a, c.b, c.w);

                Assert.True(TurnsByBruteForce(c.a, c.b, longest - 0.002, c.w));
                Assert.False(TurnsByBruteForce(c.a, c.b, longest + 0.005, c.w));
            },
            iter: 40);

    [Fact]
    public void The_arms_may_be_swapped_and_a_wider_arm_never_forbids_more() =>
        (from a in Gen.Double[0.6, 3]
         from b in Gen.Double[0.6, 3]
         from w in Gen.Double[0.3, 1.2]
         from more in Gen.Double[0, 1]
         select (a, b, w, more)).Sample(c =>
            {
                Assert.Equal(CornerFit.LongestBox(c.a, c.b, c.w), CornerFit.LongestBox(c.b, c.a, c.w), 6);
                Assert.True(CornerFit.LongestBox(c.a + c.more, c.b, c.w) >= CornerFit.LongestBox(c.a, c.b, c.w) - 1e-6);
            });

    [Fact]
    public void A_box_wider_than_an_arm_does_not_enter() => Assert.Equal(0, CornerFit.LongestBox(0.8, 2, 0.85));

    [Theory]
    [InlineData(0, 1, 1)]
    [InlineData(1, double.NaN, 1)]
    [InlineData(1, 1, -1)]
    public void A_length_that_is_no_length_is_refused(double a, double b, double w) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => CornerFit.LongestBox(a, b, w));

    /// <summary>
    /// The outer side slides along both outer walls, x = 0 and y = 0; at each angle the geometry library says whether the whole box lies in
    /// the corridor.
    /// </summary>
    private static bool TurnsByBruteForce(double a, double b, double length, double width)
    {
        const int angles = 400;
        const double far = 20;
        Coordinate[] corridor = [new(0, 0), new(far, 0), new(far, a), new(b, a), new(b, far), new(0, far), new(0, 0)];
        var room = PreparedGeometryFactory.Prepare(new Polygon(new LinearRing(corridor)).Buffer(1e-5, new BufferParameters(1, EndCapStyle.Flat, JoinStyle.Mitre, 5)));
        return Enumerable.Range(1, angles - 1).All(i =>
        {
            var (sin, cos) = Math.SinCos(i * Math.PI / 2 / angles);
            Coordinate[] box =
            [
                new(0, length * sin), new(length * cos, 0), new(length * cos + width * sin, width * cos), new(width * sin, length * sin + width * cos),
                new(0, length * sin),
            ];
            return room.Covers(new Polygon(new LinearRing(box)));
        });
    }
}
