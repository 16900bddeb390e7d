Console.WriteLine("Benchmarks of the transport planner. None is built yet.");
return 0;
